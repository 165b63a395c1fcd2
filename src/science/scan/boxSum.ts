import type { CellGrid } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

/** Sum over a square of (2 radius + 1) cells a side around each cell of an array in the loops' memory, cut off at the edge of the grid. Its place. */
export type BoxSum = (values: number, radius: number) => number;

/** Running sums: the radius costs nothing. */
export function startBoxSums({ code, room }: Loops, { columns, rows }: Pick<CellGrid, 'columns' | 'rows'>): BoxSum {
  const bytes = columns * rows * 4, along = room(bytes), running = room(columns * 8);
  return (values, radius) => {
    const sums = room(bytes);
    code.boxSum(values, columns, rows, radius, sums, along, running);
    return sums;
  };
}
