import { describe, expect, it } from 'vitest';
import { seedRandom } from './seededRandom.ts';

describe('seeded random numbers', () => {
  it('are the same for the same seed and others for another', () => {
    const draw = (seed: number): number[] => { const random = seedRandom(seed); return Array.from({ length: 5 }, () => random.below(1000)); };
    expect(draw(1)).toEqual(draw(1));
    expect(draw(1)).not.toEqual(draw(2));
    expect(draw(1)).not.toEqual(draw(1 + 2 ** 32));
  });

  it('are spread evenly: mean, variance and twelve bins of 60,000 draws', () => {
    const random = seedRandom(42);
    const bins = new Array<number>(12).fill(0);
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < 60_000; i++) {
      const x = random.next();
      expect(x >= 0 && x < 1).toBe(true);
      sum += x;
      squares += x * x;
      bins[Math.floor(12 * x)]! += 1;
    }
    expect(sum / 60_000).toBeCloseTo(0.5, 2);
    expect(squares / 60_000 - 0.25).toBeCloseTo(1 / 12, 2);
    // Chi-square with 11 degrees of freedom: 31.3 is passed with chance 0.001 (standard table).
    expect(bins.reduce((chi, n) => chi + (n - 5000) ** 2 / 5000, 0)).toBeLessThan(31.3);
  });
});
