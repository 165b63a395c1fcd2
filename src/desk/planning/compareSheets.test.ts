import { describe, expect, it } from 'vitest';
import type { PlanSheet, SheetVisit } from '../contract.ts';
import { compareSheets } from './compareSheets.ts';

const visit = (id: string, startAt: string, stops = 1): SheetVisit => ({
  visit: id, basin: id, urgency: 'should', what: 'filling', reason: '', fromBerth: 'a', toBerth: 'a', trips: [], leavesBerthAt: startAt, backAt: startAt, weightKg: 0,
  stops: Array.from({ length: stops }, (_, stop) => ({ stop, kind: 'filling' as const, station: 's', arriveAt: startAt, startAt, endAt: startAt })),
});
const sheet = (...visits: SheetVisit[]) => ({ visits }) as unknown as PlanSheet;
const six = '2026-04-14T06:00:00Z';
const done = { result: 'done' as const, at: six, by: 'p' };

describe('comparing the newest plan with the one in force', () => {
  it('says that nothing changed when nothing did, and forgives less than five minutes', () => {
    const changes = compareSheets(sheet(visit('A', six)), {}, sheet(visit('A', '2026-04-14T06:04:59Z')));
    expect(changes).toEqual({ added: [], dropped: [], moved: [], sentence: 'The rest of the day stays as approved.' });
  });
  it('names visits that came, went and moved', () => {
    const changes = compareSheets(sheet(visit('A', six), visit('B', six)), {}, sheet(visit('B', '2026-04-14T06:05:00Z'), visit('C', six)));
    expect(changes).toEqual({ added: ['C'], dropped: ['A'], moved: [{ visit: 'B', fromAt: six, toAt: '2026-04-14T06:05:00Z' }], sentence: '1 visit added, 1 visit dropped, 1 visit moved by five minutes or more.' });
  });
  it('does not miss what the floor has finished, but does miss what it has begun', () => {
    const inForce = sheet(visit('A', six, 2), visit('B', six, 2));
    const changes = compareSheets(inForce, { 'A/0': done, 'A/1': done, 'B/0': done }, sheet());
    expect(changes.dropped).toEqual(['B']);
  });
});
