import { boxSum } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';

/** Heights are averaged over a square of about this size: a stain is flat over its whole, a leaf is not. */
const WINDOW_MM = 22;
/** What stands lower than this on average is algae on the raft, not a leaf. */
const STAIN_MM = 5;
/** Stain or leaf is there when the window holds so many points of it. */
const LEAST_POINTS = 3;

/**
 * Takes algae stains out of the coloured points: they lie flat on the raft. At the border between stain and leaf the points of a cell
 * belong to both; there the leaf's share is taken from how high their mean lies between the raft and the leaf beside it.
 * `coloured` holds counts, `heights` sums of heights over the raft; both are changed.
 */
export function removeStains(grid: CellGrid, coloured: Float32Array, heights: Float32Array): void {
  const radius = Math.max(1, Math.round(WINDOW_MM / 2 / grid.cellMm - 0.5));
  const n = boxSum(coloured, grid, radius), sum = boxSum(heights, grid, radius);
  const stainCount = new Float32Array(n.length), stainSum = new Float32Array(n.length);
  let stains = 0;
  for (let cell = 0; cell < n.length; cell += 1) {
    if (coloured[cell] === 0 || sum[cell]! >= STAIN_MM * n[cell]!) continue;
    stainCount[cell] = coloured[cell]!;
    stainSum[cell] = heights[cell]!;
    stains += 1;
  }
  if (stains === 0) return;
  const stained = boxSum(stainCount, grid, radius), low = boxSum(stainSum, grid, radius);
  for (let cell = 0; cell < n.length; cell += 1) {
    if (coloured[cell] === 0 || stained[cell] === 0) continue;
    const leafCount = n[cell]! - stained[cell]!;
    if (stainCount[cell]! > 0 && leafCount < LEAST_POINTS) { coloured[cell] = 0; heights[cell] = 0; }
    else if (stained[cell]! >= LEAST_POINTS && leafCount >= LEAST_POINTS) shareOut(cell, coloured, heights, (sum[cell]! - low[cell]!) / leafCount);
  }
}

function shareOut(cell: number, coloured: Float32Array, heights: Float32Array, leafMm: number): void {
  const share = Math.min(1, Math.max(0, heights[cell]! / coloured[cell]! / leafMm));
  coloured[cell]! *= share;
  heights[cell] = share < 1 ? coloured[cell]! * leafMm : heights[cell]!;
}
