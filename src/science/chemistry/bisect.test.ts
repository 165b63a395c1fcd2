import { describe, expect, it } from 'vitest';
import { bisect } from './bisect.ts';

describe('bisect', () => {
  it('finds the last digit', () => {
    expect(bisect(1, 2, (x) => x * x < 2)).toBeCloseTo(Math.SQRT2, 15);
    expect(bisect(-3, 5, (x) => x < 0)).toBeCloseTo(0, 15);
    expect(bisect(0, 1e300, (x) => x < 7)).toBe(7);
  });
  it('returns the high end when nothing is below', () => expect(bisect(1, 2, () => true)).toBe(2));
});
