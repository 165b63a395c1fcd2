import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength, refuseCloud, refusePoint } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { numberAt, WHITE_OF } from './fieldType.ts';
import { LZF_SIZES_BYTES } from './lzfSizes.ts';
import { LzfUnpacker } from './lzfUnpacker.ts';
import { originAlong } from './originOf.ts';
import type { PcdField, PcdHeader } from './pcdHeader.ts';
import type { PcdPoints } from './pcdPoints.ts';
import { PieceJoiner } from './pieceJoiner.ts';
import type { PointColumns } from './pointColumns.ts';
import { allocateColumns } from './pointColumns.ts';
import type { PointRange } from './pointRange.ts';
import { readChannel, readCoordinates, readPacked } from './readPoints.ts';

/** Reads a compressed PCD file: unpacked, it holds all values of the first field, then all of the second, and so on. */
export class PcdColumnStream implements CloudStream {
  private readonly unpacker = new LzfUnpacker((bytes) => this.joiner.push(bytes, (whole) => this.take(whole)));
  private readonly joiner = new PieceJoiner();
  private readonly header: PcdHeader;
  private readonly points: PcdPoints;
  private readonly file: CloudFile;
  private readonly columns: PointColumns;
  private readonly origin: [number, number, number] = [0, 0, 0];
  private at = 0;
  private field = 0;
  private done = 0;
  private refusal: Refusal | undefined;

  constructor(header: PcdHeader, points: PcdPoints, file: CloudFile) {
    this.header = header;
    this.points = points;
    this.file = file;
    this.columns = allocateColumns(header.count, points.packed !== undefined || points.channels !== undefined);
  }

  push(piece: Uint8Array): boolean {
    const skipped = Math.min(piece.length, Math.max(0, this.header.lastLine.nextByte + LZF_SIZES_BYTES - this.at));
    this.at += piece.length;
    if (this.refusal === undefined && !this.unpacker.push(piece.subarray(skipped))) this.spoil();
    return this.refusal === undefined;
  }

  /** Takes whole values of the field whose turn it is. */
  private take(bytes: Uint8Array): number {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    let at = 0;
    for (;;) {
      const field = this.fieldAtHand();
      if (field === undefined) return at === bytes.length ? at : -1;
      const count = Math.min(Math.floor((bytes.length - at) / (field.bytes * field.count)), this.header.count - this.done);
      if (count === 0) return at;
      const sound = this.readValues(view, field, { atByte: at, count, to: this.done });
      if (sound < count) { this.refusal = refusePoint(this.file, this.done + sound); return -1; }
      this.done += count;
      at += count * field.bytes * field.count;
    }
  }

  private fieldAtHand(): PcdField | undefined {
    if (this.done === this.header.count) {
      this.field += 1;
      this.done = 0;
    }
    return this.header.fields[this.field];
  }

  /** Returns how many leading values are sound. */
  private readValues(view: DataView, field: PcdField, range: PointRange): number {
    const shape = { recordBytes: field.bytes * field.count, littleEndian: true };
    const place = { offset: 0, type: field.type ?? 'uint32' };
    const axis = [this.points.x, this.points.y, this.points.z].indexOf(this.field);
    if (axis >= 0) {
      if (range.to === 0 && place.type !== 'float32') this.origin[axis] = originAlong(numberAt(view, range.atByte, place.type, true));
      return readCoordinates(view, shape, place, this.origin[axis]!, range, [this.columns.x, this.columns.y, this.columns.z][axis]!);
    }
    const { red, green, blue } = this.columns;
    if (red === undefined || green === undefined || blue === undefined) return range.count;
    const channel = this.points.channels?.indexOf(this.field) ?? -1;
    if (channel >= 0) readChannel(view, shape, place, WHITE_OF[place.type], range, [red, green, blue][channel]!);
    if (this.field === this.points.packed) readPacked(view, shape, 0, range, { red, green, blue });
    return range.count;
  }

  private spoil(): void {
    this.refusal ??= refuseCloud('syntax', this.file.name, 'The compressed points cannot be unpacked. Copy or export the file again.');
  }

  finish(): Outcome<PointCloud> {
    if (this.refusal === undefined && this.at !== this.file.bytes) return refused(checkLength({ ...this.file, bytes: this.at }, this.file.bytes, true));
    if (this.refusal === undefined && !this.unpacker.finish()) this.spoil();
    if (this.refusal === undefined && (this.fieldAtHand() !== undefined || this.joiner.rest().length > 0)) this.spoil();
    if (this.refusal !== undefined) return refused([this.refusal]);
    return accepted({ count: this.header.count, origin: this.origin, ...this.columns });
  }
}
