import { describe, expect, it } from 'vitest';
import { cutBreaks, earliestFit, intersectSpans, latestFit, openSecondsWithin } from './openSpans.ts';

const day = cutBreaks({ fromS: 0, toS: 100 }, [{ fromS: 40, toS: 50 }, { fromS: 45, toS: 60 }, { fromS: -5, toS: 0 }, { fromS: 30, toS: 30 }]);

describe('open spans', () => {
  it('are what breaks leave of a shift', () => {
    expect(day).toEqual([{ fromS: 0, toS: 40 }, { fromS: 60, toS: 100 }]);
    expect(cutBreaks({ fromS: 10, toS: 10 })).toEqual([]);
    expect(cutBreaks({ fromS: 0, toS: 10 }, [{ fromS: 0, toS: 10 }])).toEqual([]);
  });

  it('meet where both are open', () => {
    expect(intersectSpans(day, [{ fromS: 30, toS: 70 }])).toEqual([{ fromS: 30, toS: 40 }, { fromS: 60, toS: 70 }]);
  });

  it('count their seconds within a window', () => {
    expect(openSecondsWithin(day, 30, 70)).toBe(20);
    expect(openSecondsWithin(day, 40, 60)).toBe(0);
  });

  it('give the earliest start and the latest end of work that is not interrupted', () => {
    expect(earliestFit(day, 25, 15)).toBe(25);
    expect(earliestFit(day, 26, 15)).toBe(60);
    expect(earliestFit(day, 0, 41)).toBeUndefined();
    expect(latestFit(day, 75, 15)).toBe(75);
    expect(latestFit(day, 74, 15)).toBe(40);
    expect(latestFit(day, 100, 41)).toBeUndefined();
  });
});
