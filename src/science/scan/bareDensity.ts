import { startBoxSums } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

const BLOCK_MM = 10;
/** Bare raft is looked for this far around. */
const REACH_MM = 45;
/** So many bare cells make a density. */
const LEAST_CELLS = 20;

/** Points a cell on bare raft, one number a block of `size` cells a side: place in the loops' memory. */
export interface BareDensity { readonly place: number; readonly size: number; readonly columns: number }

/**
 * Points a cell on bare raft nearby; where nothing is bare nearby, over the whole basin. Cells in shadow, with no point around them
 * either, do not count. `points`, `coloured` and `allPoints` (sums over 3 x 3 cells) are places.
 */
export function bareDensity(loops: Loops, grid: CellGrid, points: number, coloured: number, allPoints: number): BareDensity {
  const size = Math.max(1, Math.round(BLOCK_MM / grid.cellMm));
  const blocks = { columns: Math.ceil(grid.columns / size), rows: Math.ceil(grid.rows / size) }, length = blocks.columns * blocks.rows;
  const counts = loops.room(length * 4), cells = loops.room(length * 4);
  loops.code.countBare(points, coloured, allPoints, grid.columns, grid.rows, size, blocks.columns, counts, cells);
  const radius = Math.max(1, Math.round(REACH_MM / (size * grid.cellMm))), boxSum = startBoxSums(loops, blocks);
  const sums = boxSum(counts, radius), bare = boxSum(cells, radius);
  const total = (place: number) => loops.view(Float32Array, place, length).reduce((sum, count) => sum + count, 0);
  const usual = total(counts) / Math.max(1, total(cells)), around = loops.view(Float32Array, bare, length);
  const density = loops.view(Float32Array, sums, length).map((sum, block) => (around[block]! > LEAST_CELLS ? sum / around[block]! : usual));
  return { place: loops.put(density), size, columns: blocks.columns };
}
