import { expect, it } from 'vitest';
import { boxSum } from './boxSum.ts';

it.each([1, 2, 3])('sums over squares of radius %i, cut off at the edges', (radius) => {
  const columns = 7, rows = 6;
  const values = Float32Array.from({ length: columns * rows }, (_, i) => (i * 7) % 11);
  const sums = boxSum(values, { columns, rows }, radius);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      let expected = 0;
      for (let r = Math.max(0, row - radius); r <= Math.min(rows - 1, row + radius); r += 1) for (let c = Math.max(0, column - radius); c <= Math.min(columns - 1, column + radius); c += 1) expected += values[r * columns + c]!;
      expect(sums[row * columns + column], `${row} ${column}`).toBe(expected);
    }
  }
});
