import { describe, expect, it } from 'vitest';
import { hoursOf } from './hoursOf.ts';

const at = (clock: string) => `2026-04-14T${clock}:00Z`;
const groups = (now: string) => hoursOf(['05:10', '05:59', '07:00', '06:30', '09:15'].map(at), (is) => is, at(now), 'Europe/London');

describe('a day by the hour', () => {
  it('gathers by the hour in which things begin, in order, in the clock of the greenhouse', () => {
    expect(groups('05:00').map((group) => [group.title, group.items.length])).toEqual([['06:00 to 07:00', 2], ['07:00 to 08:00', 1], ['08:00 to 09:00', 1], ['10:00 to 11:00', 1]]);
  });
  it('lies open at this hour and the next', () => expect(groups('06:20').filter((group) => group.open).map((group) => group.title)).toEqual(['07:00 to 08:00', '08:00 to 09:00']));
  it('lies open at its first two hours before it begins and after it ended', () => {
    for (const now of ['03:00', '20:00']) expect(groups(now).map((group) => group.open)).toEqual([true, true, false, false]);
  });
});
