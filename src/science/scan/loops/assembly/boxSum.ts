import { f32At, f64At, setF32, setF64 } from './memory';

/** Sum over a square of (2 radius + 1) cells a side around each cell, cut off at the edge; `along` holds as many numbers, `running` one 64-bit number a column. */
export function boxSum(values: usize, columns: i32, rows: i32, radius: i32, sums: usize, along: usize, running: usize): void {
  alongRows(values, columns, rows, radius, along);
  memory.fill(running, 0, <usize>columns << 3);
  for (let row = 0; row < rows + radius; row += 1) {
    const entering = row * columns, leaving = (row - 2 * radius - 1) * columns, here = (row - radius) * columns;
    if (row < rows) for (let column = 0; column < columns; column += 1) setF64(running, column, f64At(running, column) + <f64>f32At(along, entering + column));
    if (leaving >= 0) for (let column = 0; column < columns; column += 1) setF64(running, column, f64At(running, column) - <f64>f32At(along, leaving + column));
    if (here >= 0) for (let column = 0; column < columns; column += 1) setF32(sums, here + column, <f32>f64At(running, column));
  }
}

function alongRows(values: usize, columns: i32, rows: i32, radius: i32, along: usize): void {
  for (let row = 0; row < rows; row += 1) {
    const from = row * columns, to = from + columns;
    let sum: f64 = 0;
    for (let cell = from; cell < to + radius; cell += 1) {
      if (cell < to) sum += <f64>f32At(values, cell);
      const leaving = cell - 2 * radius - 1, here = cell - radius;
      if (leaving >= from) sum -= <f64>f32At(values, leaving);
      if (here >= from) setF32(along, here, <f32>sum);
    }
  }
}
