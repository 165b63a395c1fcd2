import { describe, expect, it } from 'vitest';
import { startRandom } from '../seededRandom.ts';
import { evenNormals, normalQuantile, normalShareBelow, shuffleInPlace } from './normalNumbers.ts';

describe('normal numbers', () => {
  // Tables of the normal distribution (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, and common 10-digit values).
  const table: [number, number][] = [
    [0.5, 0], [0.75, 0.6744897502], [0.95, 1.6448536270], [0.975, 1.9599639845], [0.99, 2.3263478740], [0.995, 2.5758293035], [0.999, 3.0902323062], [0.0001, -3.7190164855],
  ];

  it('gives tabulated quantiles', () => {
    for (const [p, z] of table) expect(normalQuantile(p)).toBeCloseTo(z, 7);
    expect(normalQuantile(0.025)).toBe(-normalQuantile(0.975));
  });

  it('gives tabulated shares', () => {
    for (const [p, z] of table) expect(Math.abs(normalShareBelow(z) - p)).toBeLessThan(1.5e-7);
    expect(normalShareBelow(-9)).toBeCloseTo(0, 12);
  });

  it('evenly spread: mean 0, variance 1, sorted; shuffling keeps the numbers and depends on the seed only', () => {
    const even = evenNormals(101);
    expect(even.reduce((sum, z) => sum + z, 0)).toBeCloseTo(0, 10);
    expect(even.reduce((sum, z) => sum + z * z, 0) / 101).toBeCloseTo(1, 12);
    const [one, two] = [Float64Array.from(even), Float64Array.from(even)];
    shuffleInPlace(one, startRandom(5));
    shuffleInPlace(two, startRandom(5));
    expect(one).toEqual(two);
    expect(one).not.toEqual(even);
    expect(Float64Array.from(one).sort()).toEqual(even);
  });
});
