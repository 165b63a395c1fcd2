import { describe, expect, it } from 'vitest';
import { evenNormals } from './normalNumbers.ts';
import { plantQuantilesOf, quantilesOf, shareAbove } from './massQuantiles.ts';

describe('quantiles', () => {
  it('of twenty whole numbers (Hyndman & Fan 1996, type 5)', () => {
    const values = Float64Array.from({ length: 20 }, (_, i) => 20 - i);
    expect(quantilesOf(values)).toEqual({ p05: 1.5, p25: 5.5, p50: 10.5, p75: 15.5, p95: 19.5 });
    expect(values[0]).toBe(20);
  });

  it('of plants of one known mean: those of a lognormal with that mean', () => {
    const plants = plantQuantilesOf(new Float64Array(50).fill(100), 0.2);
    expect(plants.p50).toBeCloseTo(100 * Math.exp(-0.02), 1);
    expect(Math.log(plants.p75 / plants.p25)).toBeGreaterThan(2 * 0.6745 * 0.2 * 0.8);
    expect(Math.log(plants.p75 / plants.p25)).toBeLessThan(2 * 0.6745 * 0.2 * 1.25);
  });

  it('of plants when means vary too: the spreads add as squares', () => {
    const means = evenNormals(200).map((z) => 100 * Math.exp(0.3 * z));
    const plants = plantQuantilesOf(means, 0.4);
    expect(Math.log(plants.p95 / plants.p05) / (2 * 1.6449)).toBeCloseTo(0.5, 1);
  });

  it('share above a limit: half of them above the median, 2.5 % above 1.96 spreads', () => {
    expect(shareAbove(100, 0.2, 100 * Math.exp(-0.02))).toBeCloseTo(0.5, 6);
    expect(shareAbove(100, 0.2, 100 * Math.exp(-0.02 + 0.2 * 1.959964))).toBeCloseTo(0.025, 5);
    expect(shareAbove(100, 0.2, 1)).toBeCloseTo(1, 9);
  });
});
