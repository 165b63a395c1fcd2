import { expect, it } from 'vitest';
import { startBoxSums } from './boxSum.ts';
import { openLoops } from './loops/openLoops.ts';

it.each([1, 2, 3])('sums over squares of radius %i, cut off at the edges', (radius) => {
  const columns = 7, rows = 6, loops = openLoops();
  const values = Float32Array.from({ length: columns * rows }, (_, i) => (i * 7) % 11);
  const sums = loops.copy(Float32Array, startBoxSums(loops, { columns, rows })(loops.put(values), radius), values.length);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      let expected = 0;
      for (let r = Math.max(0, row - radius); r <= Math.min(rows - 1, row + radius); r += 1) for (let c = Math.max(0, column - radius); c <= Math.min(columns - 1, column + radius); c += 1) expected += values[r * columns + c]!;
      expect(sums[row * columns + column], `${row} ${column}`).toBe(expected);
    }
  }
});
