import type { LazPerf } from 'laz-perf';
import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { PointRecords } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength, refuseCloud, refusePoint } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { lasColour } from './lasHeader.ts';
import { checkLazRecords } from './lazHeader.ts';
import type { PointColumns } from './pointColumns.ts';
import { allocateColumns } from './pointColumns.ts';
import { readPoints } from './readPoints.ts';

/** Points that are unpacked before they are read. */
const BATCH = 4096;
/** Place of the count of records after the points; none of them is needed. */
const LATER_RECORDS_AT = 243;

/** Collects a LAZ file (it cannot be unpacked piece by piece) and unpacks it at the end with the library it is given. */
export class LazStream implements CloudStream {
  private readonly bytes: Uint8Array;
  private records: PointRecords;
  private readonly file: CloudFile;
  private readonly library: LazPerf;
  private at = 0;

  constructor(records: PointRecords, file: CloudFile, library: LazPerf) {
    this.records = records;
    this.file = file;
    this.library = library;
    this.bytes = new Uint8Array(file.bytes);
  }

  push(piece: Uint8Array): boolean {
    const fits = this.at + piece.length <= this.bytes.length;
    if (fits) this.bytes.set(piece, this.at);
    this.at += piece.length;
    return fits;
  }

  finish(): Outcome<PointCloud> {
    if (this.at !== this.file.bytes) return refused(checkLength({ ...this.file, bytes: this.at }, this.file.bytes, true));
    const wrong = checkLazRecords(this.bytes, this.records.count, this.file);
    if (wrong.length > 0) return refused(wrong);
    if (this.bytes[25] === 4) this.bytes.fill(0, LATER_RECORDS_AT, LATER_RECORDS_AT + 4);
    try {
      return this.unpack();
    } catch {
      return refused([refuseCloud('syntax', this.file.name, 'The packed points cannot be unpacked. Copy or export the file again.')]);
    }
  }

  /** What the library throws is about the file: it has no other input. An instance that has thrown is not to be used again. */
  private unpack(): Outcome<PointCloud> {
    const { library, records } = this;
    const { _malloc: reserve, _free: free } = library;
    const whole = reserve(this.bytes.length);
    const batch = reserve(BATCH * records.recordBytes);
    library.HEAPU8.set(this.bytes, whole);
    const reader = new library.LASZip();
    reader.open(whole, this.bytes.length);
    const columns = allocateColumns(records.count, records.colour !== undefined);
    for (let done = 0; done < records.count; done += BATCH) {
      const count = Math.min(BATCH, records.count - done);
      for (let i = 0; i < count; i += 1) reader.getPoint(batch + i * records.recordBytes);
      const unpacked = library.HEAPU8.subarray(batch, batch + count * records.recordBytes);
      if (done === 0) this.records = withColour(records, unpacked);
      const sound = readPoints(unpacked, this.records, { atByte: 0, count, to: done }, columns);
      if (sound < count) return refused([refusePoint(this.file, done + sound)]);
    }
    reader.delete();
    free(batch);
    free(whole);
    return this.checkBox(columns);
  }

  /** Packed points carry no check of their own, but the header says between which bounds they lie. */
  private checkBox(columns: PointColumns): Outcome<PointCloud> {
    const view = new DataView(this.bytes.buffer);
    const { x, y, z, origin } = this.records;
    const outside = [x, y, z].some(({ step = 1 }, axis) => {
      const slack = step + 1e-6 * Math.max(Math.abs(view.getFloat64(179 + axis * 16, true)), Math.abs(view.getFloat64(187 + axis * 16, true)));
      const most = view.getFloat64(179 + axis * 16, true) - origin[axis as 0] + slack;
      const least = view.getFloat64(187 + axis * 16, true) - origin[axis as 0] - slack;
      const values = [columns.x, columns.y, columns.z][axis]!;
      return !values.every((value) => value >= least && value <= most);
    });
    if (outside) return refused([refuseCloud('inconsistent', this.file.name, 'Unpacked points lie outside of the bounds that the header names. Export the file again.')]);
    return accepted({ count: this.records.count, origin, ...columns });
  }
}

function withColour(records: PointRecords, unpacked: Uint8Array): PointRecords {
  const { colour } = records;
  return colour === undefined || 'packed' in colour ? records : { ...records, colour: lasColour(unpacked, records.recordBytes, colour.red.offset) };
}
