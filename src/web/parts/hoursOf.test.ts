import { describe, expect, it } from 'vitest';
import { hoursOf } from './hoursOf.ts';

const at = (clock: string) => `2026-04-14T${clock}:00Z`;
const groups = (now: string) => hoursOf(['05:10', '05:59', '07:00', '06:30', '09:15'].map(at), (is) => is, at(now), 'Europe/London');

describe('a day by the hour', () => {
  it('gathers by the hour in which things begin, in order, in the clock of the greenhouse', () => {
    expect(groups('05:00').map((group) => [group.title, group.items.length])).toEqual([['06:00 to 07:00', 2], ['07:00 to 08:00', 1], ['08:00 to 09:00', 1], ['10:00 to 11:00', 1]]);
  });
  it('lies open at this hour, at the next one with anything in it, or at the first when the day is over', () => {
    const open = (now: string) => groups(now).filter((group) => group.open).map((group) => group.title);
    expect([open('06:20'), open('08:20'), open('03:00'), open('20:00')]).toEqual([['07:00 to 08:00'], ['10:00 to 11:00'], ['06:00 to 07:00'], ['06:00 to 07:00']]);
  });
});
