import { assert, integer, property } from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dateOf, dayNumberOf } from './calendar.ts';

describe('calendar dates', () => {
  it('knows days that can be looked up', () => {
    expect(dayNumberOf('1970-01-01')).toBe(0);
    expect(dayNumberOf('2000-02-29')).toBe(11016);
    expect(dayNumberOf('2022-02-03')).toBe(19026);
    expect(dayNumberOf('1969-12-31')).toBe(-1);
  });

  it('refuses days that are not', () => {
    for (const text of ['2022-02-29', '2022-13-01', '2022-00-10', '22-02-03', '2022-2-3', '', '2022-02-03T00:00']) expect(dayNumberOf(text)).toBeUndefined();
  });

  it('agrees with the platform calendar, there and back', () => {
    assert(property(integer({ min: -700_000, max: 2_900_000 }), (day) => {
      const date = new Date(day * 86_400_000).toISOString().slice(0, 10);
      expect(dateOf(day)).toBe(date);
      expect(dayNumberOf(date)).toBe(day);
    }));
  });
});
