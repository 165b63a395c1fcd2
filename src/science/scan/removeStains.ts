import type { BoxSum } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

/** Heights are averaged over a square of about this size: a stain is flat over its whole, a leaf is not. */
const WINDOW_MM = 22;
/** What stands lower than this on average is algae on the raft, not a leaf. */
const STAIN_MM = 5;
/** Stain or leaf is there when the window holds so many points of it. */
const LEAST_POINTS = 3;

/**
 * Takes algae stains out of the coloured points: they lie flat on the raft. At the border between stain and leaf the points of a cell
 * belong to both; there the leaf's share is taken from how high their mean lies between the raft and the leaf beside it.
 * `coloured` is the place of counts, `heights` that of sums of heights over the raft; both are changed.
 */
export function removeStains({ code, room }: Loops, grid: CellGrid, boxSum: BoxSum, coloured: number, heights: number): void {
  const radius = Math.max(1, Math.round(WINDOW_MM / 2 / grid.cellMm - 0.5)), cells = grid.columns * grid.rows;
  const n = boxSum(coloured, radius), sum = boxSum(heights, radius);
  const stainCount = room(cells * 4), stainSum = room(cells * 4);
  if (code.findStains(coloured, heights, n, sum, STAIN_MM, cells, stainCount, stainSum) === 0) return;
  code.takeStains(coloured, heights, n, sum, boxSum(stainCount, radius), boxSum(stainSum, radius), stainCount, LEAST_POINTS, cells);
}
