import { describe, expect, it } from 'vitest';
import type { SheetVisit } from '../../desk/contract.ts';
import { listVisits } from './listVisits.ts';

const visit = (id: string, leavesBerthAt: string, ...stops: [station: string, startAt: string][]): SheetVisit => ({
  visit: id, basin: id, urgency: 'may', what: '', reason: '', fromBerth: 'a', toBerth: 'a', trips: [], leavesBerthAt, backAt: '', weightKg: 0,
  stops: stops.map(([station, startAt], stop) => ({ stop, kind: 'filling', station, arriveAt: startAt, startAt, endAt: startAt })),
});
const visits = [visit('A', '07:00', ['wash', '07:05'], ['fill', '08:00']), visit('B', '06:00', ['fill', '06:30']), visit('C', '06:30', ['wash', '07:10'])];
const names = (list: readonly SheetVisit[]) => list.map((is) => is.visit).join('');

describe('which visits are listed, and in which order', () => {
  it('by the time they leave their berth', () => expect(names(listVisits(visits, {}, { station: undefined, open: false }))).toBe('BCA'));
  it('at a station: only its own, by the time they start there', () => {
    expect(names(listVisits(visits, {}, { station: 'wash', open: false }))).toBe('AC');
    expect(names(listVisits(visits, {}, { station: 'fill', open: false }))).toBe('BA');
  });
  it('only what is still to do: a visit with any stop unmarked', () => {
    const done = { result: 'done' as const, at: '', by: '' };
    expect(names(listVisits(visits, { 'A/0': done, 'B/0': done }, { station: undefined, open: true }))).toBe('CA');
  });
});
