import { describe, expect, it } from 'vitest';
import { clockTime, dateTime, dayMonth, daysBetween, inDays, longDate, shortDate } from './times.ts';

describe('times as the greenhouse clock shows them', () => {
  it('follows summer time of the zone', () => {
    expect([clockTime('2026-03-29T00:59:00Z', 'Europe/Oslo'), clockTime('2026-03-29T01:00:00Z', 'Europe/Oslo')]).toEqual(['01:59', '03:00']);
    expect(clockTime('2026-04-13T22:00:00Z', 'Europe/Oslo')).toBe('00:00');
    expect(clockTime(undefined, 'UTC')).toBe('–');
    expect(dateTime('2026-04-13T22:00:00Z', 'Europe/Oslo')).toBe('14 Apr, 00:00');
  });
  it('writes dates in words', () => expect([longDate('2026-04-14'), shortDate('2026-04-14'), dayMonth('2026-04-14')]).toEqual(['Tuesday 14 April 2026', 'Tue 14 Apr', '14 Apr']));
  it('counts days across the change of the clocks', () => {
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(['2026-04-14', '2026-04-15', '2026-04-13', '2026-04-19', '2026-04-10'].map((date) => inDays('2026-04-14', date))).toEqual(['today', 'tomorrow', 'yesterday', 'in 5 days', '4 days ago']);
  });
});
