import type { CellGrid } from './heightField.ts';

/** Sum over a square of (2 radius + 1) cells a side around each cell, cut off at the edge of the grid. Running sums: the radius costs nothing. */
export function boxSum(values: Float32Array, grid: Pick<CellGrid, 'columns' | 'rows'>, radius: number): Float32Array {
  const { columns, rows } = grid;
  const along = alongRows(values, columns, rows, radius), sums = new Float32Array(values.length);
  const running = new Float64Array(columns);
  for (let row = 0; row < rows + radius; row += 1) {
    const entering = row * columns, leaving = (row - 2 * radius - 1) * columns, here = (row - radius) * columns;
    if (row < rows) for (let column = 0; column < columns; column += 1) running[column]! += along[entering + column]!;
    if (leaving >= 0) for (let column = 0; column < columns; column += 1) running[column]! -= along[leaving + column]!;
    if (here >= 0) for (let column = 0; column < columns; column += 1) sums[here + column] = running[column]!;
  }
  return sums;
}

function alongRows(values: Float32Array, columns: number, rows: number, radius: number): Float32Array {
  const along = new Float32Array(values.length);
  for (let row = 0; row < rows; row += 1) {
    const from = row * columns, to = from + columns;
    let sum = 0;
    for (let cell = from; cell < to + radius; cell += 1) {
      if (cell < to) sum += values[cell]!;
      const leaving = cell - 2 * radius - 1, here = cell - radius;
      if (leaving >= from) sum -= values[leaving]!;
      if (here >= from) along[here] = sum;
    }
  }
  return along;
}
