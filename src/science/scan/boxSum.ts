import type { CellGrid } from './heightField.ts';

/** Sum over a square of (2 radius + 1) cells a side around each cell, cut off at the edge of the grid. Running sums: the radius costs nothing. */
export function boxSum(values: Float32Array, { columns, rows }: CellGrid, radius: number): Float32Array {
  const along = new Float32Array(values.length), sums = new Float32Array(values.length);
  for (let row = 0; row < rows; row += 1) {
    const from = row * columns, to = from + columns;
    let sum = 0;
    for (let cell = from; cell < Math.min(to, from + radius); cell += 1) sum += values[cell]!;
    for (let cell = from; cell < to; cell += 1) {
      if (cell + radius < to) sum += values[cell + radius]!;
      along[cell] = sum;
      if (cell - radius >= from) sum -= values[cell - radius]!;
    }
  }
  const running = new Float64Array(columns);
  for (let row = 0; row < Math.min(rows, radius); row += 1) for (let column = 0; column < columns; column += 1) running[column]! += along[row * columns + column]!;
  for (let row = 0; row < rows; row += 1) {
    const entering = (row + radius) * columns, leaving = (row - radius) * columns, here = row * columns;
    for (let column = 0; column < columns; column += 1) {
      if (row + radius < rows) running[column]! += along[entering + column]!;
      sums[here + column] = running[column]!;
      if (leaving >= 0) running[column]! -= along[leaving + column]!;
    }
  }
  return sums;
}
