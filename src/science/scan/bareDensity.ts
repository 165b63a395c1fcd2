import { boxSum } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';

const BLOCK_MM = 10;
/** Bare raft is looked for this far around. */
const REACH_MM = 45;
/** So many bare cells make a density. */
const LEAST_CELLS = 20;

/**
 * Points a cell on bare raft nearby; where nothing is bare nearby, over the whole basin. Cells in shadow, with no point around them
 * either, do not count. One number a block of about 10 mm; `at` gives that of a cell.
 */
export function bareDensity(grid: CellGrid, points: Float32Array, coloured: Float32Array, allPoints: Float32Array): { readonly at: (row: number, column: number) => number } {
  const size = Math.max(1, Math.round(BLOCK_MM / grid.cellMm));
  const blocks = { columns: Math.ceil(grid.columns / size), rows: Math.ceil(grid.rows / size) };
  const counts = new Float32Array(blocks.columns * blocks.rows), cells = new Float32Array(counts.length);
  for (let row = 0; row < grid.rows; row += 1) {
    const first = row * grid.columns, block = Math.floor(row / size) * blocks.columns;
    for (let column = 0; column < grid.columns; column += 1) {
      const cell = first + column;
      if (coloured[cell]! > 0 || allPoints[cell] === 0) continue;
      const at = block + ((column / size) | 0);
      counts[at]! += points[cell]!;
      cells[at]! += 1;
    }
  }
  const radius = Math.max(1, Math.round(REACH_MM / (size * grid.cellMm)));
  const sums = boxSum(counts, blocks, radius), bare = boxSum(cells, blocks, radius);
  const usual = counts.reduce((sum, count) => sum + count, 0) / Math.max(1, cells.reduce((sum, count) => sum + count, 0));
  const density = sums.map((sum, block) => (bare[block]! > LEAST_CELLS ? sum / bare[block]! : usual));
  return { at: (row, column) => density[((row / size) | 0) * blocks.columns + ((column / size) | 0)]! };
}
