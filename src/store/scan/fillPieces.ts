import { accepted, type Outcome } from '../../science/refusal.ts';
import { startAdding, type CellGrid, type HeightField } from '../../science/scan/heightField.ts';
import { openPiece } from '../../science/scan/piece.ts';
import type { PointRecords } from '../../science/scan/pointRecords.ts';
import type { CloudFile } from '../../science/scan/read/cloudFile.ts';
import type { Transform } from '../../science/scan/rigidTransform.ts';
import { SCAN_COLOUR } from '../../science/scan/scanBasin.ts';
import { readRecords } from './readRecords.ts';

/** What a thread needs in order to put points of a file into a height field. Can be posted to another thread. */
export interface FillTask {
  readonly path: string;
  readonly file: CloudFile;
  readonly records: PointRecords;
  readonly grid: CellGrid;
  readonly toBasin: Transform;
  /** One shared number: the next piece that nobody has taken. */
  readonly next: Int32Array;
}

/** A piece in bytes, columns and cells stays in the processor's second cache. */
const PIECE_BYTES = 1 << 18;

/** Takes pieces of the file, as long as there are any, and adds their points. The sums do not depend on the order. */
export function fillPieces(descriptor: number, { file, records, grid, toBasin, next }: FillTask, field: HeightField): Outcome<number> {
  const most = Math.max(1, Math.floor(PIECE_BYTES / records.recordBytes));
  const piece = openPiece(field.loops, most, records.colour !== undefined, records.recordBytes), add = startAdding(field, grid, piece, toBasin, SCAN_COLOUR);
  let inside = 0;
  for (let first = Atomics.add(next, 0, 1) * most; first < records.count; first = Atomics.add(next, 0, 1) * most) {
    const count = Math.min(most, records.count - first), read = readRecords(descriptor, file, records, first, count, piece, 0);
    if (!read.ok) return read;
    inside += add(count);
  }
  return accepted(inside);
}
