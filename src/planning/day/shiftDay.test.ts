import { describe, expect, it } from 'vitest';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { addDays, daysBetween, localClock, localDate, shiftDay, toInstant } from './shiftDay.ts';

const file = (start: string, end: string, timeZone = 'Europe/Oslo') =>
  ({ location: { timeZone }, shift: { start, end, breaks: [{ from: '11:00', to: '11:30' }] }, orderPickHour: '12:00' }) as unknown as GreenhouseFile;

describe('shiftDay', () => {
  it('gives the shift in UTC, summer and winter', () => {
    expect(toInstant(shiftDay(file('06:00', '15:00'), '2026-07-01T03:00:00Z').startMs)).toBe('2026-07-01T04:00:00.000Z');
    expect(toInstant(shiftDay(file('06:00', '15:00'), '2026-01-15T03:00:00Z').startMs)).toBe('2026-01-15T05:00:00.000Z');
  });

  it('uses the local date, not the date in Greenwich', () => {
    const day = shiftDay(file('06:00', '15:00', 'America/Los_Angeles'), '2026-03-04T13:30:00Z');
    expect(day.date).toBe('2026-03-04');
    expect(shiftDay(file('20:00', '04:00', 'America/Los_Angeles'), '2026-03-05T05:00:00Z')).toMatchObject({ date: '2026-03-04', endMs: Date.parse('2026-03-05T12:00:00Z') });
  });

  it('plans tomorrow once the shift is over', () => {
    expect(shiftDay(file('06:00', '15:00'), '2026-07-01T12:59:59Z').date).toBe('2026-07-01');
    expect(shiftDay(file('06:00', '15:00'), '2026-07-01T13:00:00Z').date).toBe('2026-07-02');
  });

  it('knows breaks, the pick hour and the days when clocks change', () => {
    const day = shiftDay(file('06:00', '15:00'), '2026-03-29T04:00:00Z');
    expect(toInstant(day.breaks[0]!.fromMs)).toBe('2026-03-29T09:00:00.000Z');
    expect(toInstant(day.pickMs)).toBe('2026-03-29T10:00:00.000Z');
    expect(addDays('2026-03-28', 2)).toBe('2026-03-30');
    expect(daysBetween('2026-03-28', '2026-03-30')).toBe(2);
    expect(localDate(Date.parse('2026-03-29T22:30:00Z'), 'Europe/Oslo')).toBe('2026-03-30');
    expect(localClock(Date.parse('2026-03-29T22:30:00Z'), 'Europe/Oslo')).toBe('00:30');
  });
});
