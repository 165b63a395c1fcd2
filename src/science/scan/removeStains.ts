import { boxSum } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';

/** Heights are averaged over a square of about this size: a stain is flat over its whole, a leaf is not. */
const WINDOW_MM = 22;
/** What stands lower than this on average is algae on the raft, not a leaf. */
const STAIN_MM = 5;

/**
 * Takes algae stains out of the coloured points: they lie flat on the raft. At the border between stain and leaf the points of a cell
 * belong to both; there the leaf's share is taken from how high their mean lies between the raft and the leaf beside it.
 * `coloured` holds counts, `heights` sums of heights over the raft; both are changed.
 */
export function removeStains(grid: CellGrid, coloured: Float32Array, heights: Float32Array): void {
  const radius = Math.max(1, Math.round(WINDOW_MM / 2 / grid.cellMm - 0.5));
  const n = boxSum(coloured, grid, radius), sum = boxSum(heights, grid, radius);
  const stain = Uint8Array.from(n, (count, cell) => Number(count > 0 && sum[cell]! < STAIN_MM * count));
  const stained = boxSum(Float32Array.from(stain, (is, cell) => is * coloured[cell]!), grid, radius);
  const leafCount = boxSum(coloured.map((count, cell) => (stain[cell] === 1 ? 0 : count)), grid, radius);
  const leafSum = boxSum(heights.map((height, cell) => (stain[cell] === 1 ? 0 : height)), grid, radius);
  for (let cell = 0; cell < coloured.length; cell += 1) {
    if (coloured[cell] === 0) continue;
    if (stain[cell] === 1 && leafCount[cell]! < 3) { coloured[cell] = 0; heights[cell] = 0; }
    else if (stained[cell]! >= 3 && leafCount[cell]! >= 3) shareOut(cell, coloured, heights, leafSum[cell]! / leafCount[cell]!);
  }
}

function shareOut(cell: number, coloured: Float32Array, heights: Float32Array, leafMm: number): void {
  const share = Math.min(1, Math.max(0, heights[cell]! / coloured[cell]! / leafMm));
  coloured[cell]! *= share;
  heights[cell] = share < 1 ? coloured[cell]! * leafMm : heights[cell]!;
}
