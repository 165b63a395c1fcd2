import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveNonNegative } from './nonNegativeLeastSquares.ts';

describe('non-negative least squares', () => {
  it('is exact where it can be', () => {
    const [x, y] = solveNonNegative([[1, 1], [1, -1]], [3, 1]);
    expect(x).toBeCloseTo(2, 14);
    expect(y).toBeCloseTo(1, 14);
  });
  it('binds what would be negative', () => {
    // min (x - 2)^2 + (x + y - 1)^2 with y >= 0: y = 0, x = 1.5.
    const [x, y] = solveNonNegative([[1, 1], [0, 1]], [2, 1]);
    expect(x).toBeCloseTo(1.5, 12);
    expect(y).toBe(0);
  });
  it('bears dependent, zero and no columns', () => {
    expect(solveNonNegative([[1, 0], [2, 0], [0, 0]], [4, 0]).reduce((s, v, j) => s + v * [1, 2, 0][j]!, 0)).toBeCloseTo(4, 12);
    expect(solveNonNegative([], [1])).toEqual([]);
  });
  it('meets the optimality conditions on random problems', () => {
    const number = fc.double({ min: -5, max: 5, noNaN: true });
    const problem = fc.tuple(fc.array(fc.array(number, { minLength: 5, maxLength: 5 }), { minLength: 1, maxLength: 7 }), fc.array(number, { minLength: 5, maxLength: 5 }));
    fc.assert(fc.property(problem, ([columns, b]) => {
      const x = solveNonNegative(columns, b);
      const rest = b.map((value, i) => columns.reduce((r, column, j) => r - column[i]! * x[j]!, value));
      columns.forEach((column, j) => {
        const length = Math.sqrt(column.reduce((s, v) => s + v * v, 0));
        if (length < 1e-6) return;
        const gain = column.reduce((s, v, i) => s + v * rest[i]!, 0) / length;
        expect(x[j]).toBeGreaterThanOrEqual(0);
        expect(gain).toBeLessThan(1e-6);
        if (x[j]! > 0) expect(Math.abs(gain)).toBeLessThan(1e-6);
      });
    }), { seed: 7, numRuns: 300 });
  });
});
