import type { BasinLayout } from './basinLayout.ts';
import type { CellGrid } from './heightField.ts';

/** Blocks of this size belong to one raft as a whole; gaps between rafts are wider. */
const BLOCK_MM = 8;

/** Which raft each cell belongs to: the one whose outline is nearest to the cell's block. */
export function nearestRafts(grid: CellGrid, { rafts }: BasinLayout): Uint8Array {
  const { columns, rows, cellMm, leftMm, nearMm } = grid;
  const nearest = new Uint8Array(columns * rows);
  const step = Math.max(1, Math.round(BLOCK_MM / cellMm));
  for (let row = 0; row < rows; row += step) {
    const first = row * columns;
    for (let column = 0; column < columns; column += step) {
      const x = leftMm + (column + step / 2) * cellMm, y = nearMm + (row + step / 2) * cellMm;
      let best = 0, least = Infinity;
      for (let k = 0; k < rafts.length; k += 1) {
        const { centreMm, sizeMm } = rafts[k]!;
        const off = Math.hypot(Math.max(0, Math.abs(x - centreMm[0]) - sizeMm[0] / 2), Math.max(0, Math.abs(y - centreMm[1]) - sizeMm[1] / 2));
        if (off < least) { least = off; best = k; }
      }
      nearest.fill(best, first + column, first + Math.min(columns, column + step));
    }
    for (let below = 1; below < step && row + below < rows; below += 1) nearest.copyWithin(first + below * columns, first, first + columns);
  }
  return nearest;
}
