import { describe, expect, it } from 'vitest';
import type { GrowthCheck } from './growthAlarms.ts';
import { findGrowthAlarms } from './growthAlarms.ts';

/** Checks a week apart; shortfalls from the forecast in its own standard deviations (0.1), gaps to the uncorrected model as logarithms. */
const weeks = (...rows: [shortfallSd: number, gap: number][]): GrowthCheck[] => rows.map(([shortfallSd, gap], i) => ({
  day: 19_000 + 7 * i, quantity: 'dryG', measured: 1 + i, forecast: 1 + i + 0.1 * shortfallSd, forecastSd: 0.1, expected: 1 + i + gap,
}));
const names = (checks: GrowthCheck[]) => findGrowthAlarms(checks).map((alarm) => alarm.name);

describe('growth alarm', () => {
  it('rises when shortfalls gather beyond 2 after an allowance of 0.25 each, and the gap grows', () => {
    expect(names(weeks([0, 0.1], [1.2, 0.2], [1.2, 0.3]))).toEqual([]); // 0.95 + 0.95
    expect(names(weeks([0, 0.1], [1.3, 0.2], [1.3, 0.3]))).toEqual(['growth-below-model']); // 1.05 + 1.05
  });

  it('does not judge the first check, which only sets the lot\'s rate', () => {
    expect(names(weeks([9, 0.5], [0, 0.6]))).toEqual([]);
  });

  it('does not rise while the gap to the uncorrected model closes', () => {
    expect(names(weeks([0, 0.5], [3, 0.4]))).toEqual([]);
    expect(names(weeks([0, 0.5], [3, 0.6]))).toEqual(['growth-below-model']);
  });

  it('stays after a good week, and goes when the shortfall has been made up for', () => {
    expect(names(weeks([0, 0.1], [3, 0.4], [-0.5, 0.3]))).toEqual(['growth-below-model']);
    expect(names(weeks([0, 0.1], [3, 0.4], [-1.2, 0.3], [-1.2, 0.2]))).toEqual([]);
  });

  it('has a counterpart above', () => {
    expect(names(weeks([0, 0], [-1.5, -0.2], [-1.5, -0.4]))).toEqual(['growth-above-model']);
  });

  it('says since when, what was found, what was forecast, and what to look at', () => {
    const [alarm] = findGrowthAlarms([
      { day: 19_000, quantity: 'dryG', measured: 0, forecast: 0, forecastSd: 0.1, expected: 0.1 },
      { day: 19_007, quantity: 'dryG', measured: Math.log(3), forecast: Math.log(4), forecastSd: 0.1, expected: Math.log(6) },
    ]);
    expect(alarm!.sentence).toBe('Since 2022-01-15 this lot has been growing less than its model even after corrections: on 2022-01-15 a plant weighed 3.00 g dry; 4.00 g were forecast, 6.00 g by the model uncorrected. Look at the crop: roots, tip-burn, disease, light at the basin.');
    expect(alarm!.numbers['gapPct']).toBeCloseTo(-50, 9);
    expect(alarm!.numbers['gatheredSd']).toBeCloseTo(Math.log(4 / 3) / 0.1 - 0.25, 9);
  });
});
