import type { BasinLayout } from './basinLayout.ts';
import type { CellGrid } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

/** Blocks of this size belong to one raft as a whole; gaps between rafts are wider. */
const BLOCK_MM = 8;

/** Which raft each cell belongs to: the one whose outline is nearest to the cell's block. */
export function nearestRafts({ code, put, room, copy }: Loops, { columns, rows, cellMm, leftMm, nearMm }: CellGrid, { rafts }: BasinLayout): Uint8Array {
  const nearest = room(columns * rows), outlines = put(Float64Array.from(rafts.flatMap(({ centreMm, sizeMm }) => [...centreMm, ...sizeMm])));
  code.nearestRafts(columns, rows, Math.max(1, Math.round(BLOCK_MM / cellMm)), cellMm, leftMm, nearMm, outlines, rafts.length, nearest);
  return copy(Uint8Array, nearest, columns * rows);
}
