import { expect, it } from 'vitest';
import type { PlanSheet } from '../../desk/contract.ts';
import { lateWords } from '../morning/lateWords.ts';
import { nextWays } from './nextWays.ts';

const at = (minutes: number) => new Date(Date.UTC(2026, 3, 14, 6, minutes)).toISOString();
const trip = (pick: number, arrive: number) => ({ vehicle: 'v1', from: 'a', to: 'b', emptyFrom: 'c', emptyDepartAt: at(pick - 2), pickAt: at(pick), departAt: at(pick), arriveAt: at(arrive) });
const sheet = {
  timeZone: 'UTC',
  visits: [
    { visit: 'V', basin: 'B001', toBerth: 'W1', stops: [{ stop: 0, station: 'fill', startAt: at(5), endAt: at(10) }], trips: [trip(1, 5), trip(10, 14)] },
    { visit: 'W', basin: 'B002', toBerth: 'W2', stops: [{ stop: 0, station: 'fill', startAt: at(20), endAt: at(25), result: 'done' }, { stop: 1, station: 'wash', startAt: at(30), endAt: at(35) }], trips: [trip(26, 30), trip(35, 39)] },
  ],
  timeline: { vehicles: [{ id: 'v1', title: 'Cart 1' }, { id: 'v2', title: 'Cart 2' }] },
} as unknown as PlanSheet;

it('lists what each vehicle does next, with the station or berth that it goes to; stops that are done are behind it', () => {
  const [first, second] = nextWays(sheet, at(12), 3);
  expect(first!.ways.map(({ basin, station, berth }) => [basin, station ?? berth])).toEqual([['B001', 'W1'], ['B002', 'wash'], ['B002', 'W2']]);
  expect(nextWays(sheet, at(12), 1)[0]!.ways).toHaveLength(1);
  expect(second!.ways).toEqual([]);
});

it('says which stops are overdue, the longest first, and leaves out what is marked', () => {
  const words = (minutes: number, outcomes = {}) => lateWords(sheet, outcomes, at(minutes), () => 'Filling');
  expect(words(9)).toEqual([]);
  expect(words(40)).toEqual(['Basin B001 at Filling was to be done at 06:10 and is not marked, 30 minutes ago.', 'Basin B002 at Filling was to be done at 06:35 and is not marked, 5 minutes ago.']);
  expect(words(40, { 'V/0': { result: 'done', at: '', by: '' } })).toHaveLength(1);
});
