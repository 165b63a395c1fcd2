import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { PointRecords } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength, refusePoint } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { PieceJoiner } from './pieceJoiner.ts';
import type { PointColumns } from './pointColumns.ts';
import { allocateColumns } from './pointColumns.ts';
import { readPoints } from './readPoints.ts';

/** Larger pieces are read in parts that stay in the processor's cache. */
const PART_BYTES = 1_048_576;

/** Reads records of one size. `lastByte` is where the file ends by its header. */
export class RecordStream implements CloudStream {
  private readonly joiner = new PieceJoiner();
  private readonly columns: PointColumns;
  private readonly records: PointRecords;
  private readonly file: CloudFile;
  private at = 0;
  private done = 0;
  private unsoundAt: number | undefined;

  constructor(records: PointRecords, file: CloudFile) {
    this.records = records;
    this.file = file;
    this.columns = allocateColumns(records.count, records.colour !== undefined);
  }

  push(piece: Uint8Array): boolean {
    const skipped = Math.min(piece.length, Math.max(0, this.records.firstByte - this.at));
    this.at += piece.length;
    return this.unsoundAt === undefined && this.joiner.push(piece.subarray(skipped), (bytes) => this.take(bytes));
  }

  private take(bytes: Uint8Array): number {
    const { recordBytes, count } = this.records;
    const whole = Math.min(Math.floor(bytes.length / recordBytes), count - this.done);
    const part = Math.max(1, Math.floor(PART_BYTES / recordBytes));
    for (let from = 0; from < whole; from += part) {
      const range = { atByte: from * recordBytes, count: Math.min(part, whole - from), to: this.done };
      const sound = readPoints(bytes, this.records, range, this.columns);
      if (sound < range.count) { this.unsoundAt = this.done + sound; return -1; }
      this.done += range.count;
    }
    return this.done === count ? bytes.length : whole * recordBytes;
  }

  finish(): Outcome<PointCloud> {
    if (this.unsoundAt !== undefined) return refused([refusePoint(this.file, this.unsoundAt)]);
    if (this.at !== this.file.bytes || this.done < this.records.count) return refused(checkLength({ ...this.file, bytes: this.at }, this.file.bytes, true));
    return accepted({ count: this.done, origin: this.records.origin, ...this.columns });
  }
}
