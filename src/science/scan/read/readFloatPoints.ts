import type { PointRecords, RecordField } from '../pointRecords.ts';
import type { PointColumns } from './pointColumns.ts';
import type { PointRange } from './pointRange.ts';
import { FARTHEST } from './pointRange.ts';

const isPlain = (field: RecordField) => field.type === 'float32' && field.step === undefined && field.shift === undefined;

/** The records that nearly every scanner writes: positions as little-endian 32-bit numbers near zero, colours as bytes or none. */
export function areFloatRecords(records: PointRecords): boolean {
  const { x, y, z, origin, colour } = records;
  return records.littleEndian && isPlain(x) && isPlain(y) && isPlain(z) && origin.every((part) => part === 0)
    && (colour === undefined || ('white' in colour && colour.white === 255 && colour.red.type === 'uint8'));
}

/** readPoints for such records, in one pass instead of six: half the time. */
export function readFloatPoints(bytes: Uint8Array, records: PointRecords, range: PointRange, columns: PointColumns): number {
  const { red, green, blue } = columns;
  const { colour } = records;
  if (colour === undefined || 'packed' in colour || red === undefined || green === undefined || blue === undefined) return readFloatPositions(bytes, records, range, columns);
  const { x, y, z } = columns;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [toX, toY, toZ] = [records.x.offset, records.y.offset, records.z.offset];
  const [toRed, toGreen, toBlue] = [colour.red.offset, colour.green.offset, colour.blue.offset];
  const stride = records.recordBytes;
  const end = range.to + range.count;
  let unsound = 0;
  for (let i = range.to, at = range.atByte; i < end; i += 1, at += stride) {
    const east = view.getFloat32(at + toX, true);
    const north = view.getFloat32(at + toY, true);
    const up = view.getFloat32(at + toZ, true);
    x[i] = east;
    y[i] = north;
    z[i] = up;
    red[i] = bytes[at + toRed]!;
    green[i] = bytes[at + toGreen]!;
    blue[i] = bytes[at + toBlue]!;
    if (!(Math.abs(east) < FARTHEST && Math.abs(north) < FARTHEST && Math.abs(up) < FARTHEST)) unsound += 1;
  }
  return unsound === 0 ? range.count : leadingSound(columns, range);
}

function readFloatPositions(bytes: Uint8Array, records: PointRecords, range: PointRange, columns: PointColumns): number {
  const { x, y, z } = columns;
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const [toX, toY, toZ] = [records.x.offset, records.y.offset, records.z.offset];
  const stride = records.recordBytes;
  const end = range.to + range.count;
  let unsound = 0;
  for (let i = range.to, at = range.atByte; i < end; i += 1, at += stride) {
    const east = view.getFloat32(at + toX, true);
    const north = view.getFloat32(at + toY, true);
    const up = view.getFloat32(at + toZ, true);
    x[i] = east;
    y[i] = north;
    z[i] = up;
    if (!(Math.abs(east) < FARTHEST && Math.abs(north) < FARTHEST && Math.abs(up) < FARTHEST)) unsound += 1;
  }
  return unsound === 0 ? range.count : leadingSound(columns, range);
}

function leadingSound({ x, y, z }: PointColumns, range: PointRange): number {
  for (let i = range.to; i < range.to + range.count; i += 1) {
    if (!(Math.abs(x[i]!) < FARTHEST && Math.abs(y[i]!) < FARTHEST && Math.abs(z[i]!) < FARTHEST)) return i - range.to;
  }
  return range.count;
}
