import type { PointRecords, RecordField } from '../pointRecords.ts';
import { numberAt } from './fieldType.ts';
import type { PointColumns } from './pointColumns.ts';
import type { PointRange } from './pointRange.ts';
import { FARTHEST } from './pointRange.ts';

/**
 * Reads records of one size into columns; give pieces that fit the processor's cache, about 1 MB. Colours are read when records and
 * columns both have them. Returns how many leading points are sound (finite and nearer than FARTHEST):
 * `range.count` when all are; what stands in the columns from the first unsound one on is not to be used.
 */
export function readPoints(bytes: Uint8Array, records: PointRecords, range: PointRange, columns: PointColumns): number {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const sound = Math.min(
    readCoordinates(view, records, records.x, records.origin[0], range, columns.x),
    readCoordinates(view, records, records.y, records.origin[1], range, columns.y),
    readCoordinates(view, records, records.z, records.origin[2], range, columns.z),
  );
  readColours(view, records, range, columns);
  return sound;
}

/** What is needed of records to read one field of each. */
export type RecordShape = Pick<PointRecords, 'recordBytes' | 'littleEndian'>;

/** Reads one coordinate of each record; returns how many leading ones are sound. */
export function readCoordinates(view: DataView, records: RecordShape, field: RecordField, origin: number, range: PointRange, out: Float32Array): number {
  const step = field.step ?? 1;
  const shift = (field.shift ?? 0) - origin;
  const { recordBytes, littleEndian } = records;
  const end = range.to + range.count;
  let at = range.atByte + field.offset;
  let unsound = 0;
  if (field.type === 'float32') {
    for (let i = range.to; i < end; i += 1, at += recordBytes) {
      const value = view.getFloat32(at, littleEndian) * step + shift;
      out[i] = value;
      if (!(value < FARTHEST && value > -FARTHEST)) unsound += 1;
    }
  } else {
    for (let i = range.to; i < end; i += 1, at += recordBytes) {
      const value = numberAt(view, at, field.type, littleEndian) * step + shift;
      out[i] = value;
      if (!(value < FARTHEST && value > -FARTHEST)) unsound += 1;
    }
  }
  return unsound === 0 ? range.count : leadingSound(out, range.to, end);
}

function leadingSound(out: Float32Array, from: number, end: number): number {
  for (let i = from; i < end; i += 1) if (!(Math.abs(out[i]!) < FARTHEST)) return i - from;
  return end - from;
}

function readColours(view: DataView, records: PointRecords, range: PointRange, columns: PointColumns): void {
  const { colour } = records;
  const { red, green, blue } = columns;
  if (colour === undefined || red === undefined || green === undefined || blue === undefined) return;
  if ('packed' in colour) return readPacked(view, records, colour.packed.offset, range, { red, green, blue });
  readChannel(view, records, colour.red, colour.white, range, red);
  readChannel(view, records, colour.green, colour.white, range, green);
  readChannel(view, records, colour.blue, colour.white, range, blue);
}

/** Reads one part of the colour of each record. */
export function readChannel(view: DataView, records: RecordShape, field: RecordField, white: number, range: PointRange, out: Uint8Array): void {
  const { recordBytes, littleEndian } = records;
  const end = range.to + range.count;
  let at = range.atByte + field.offset;
  if (field.type === 'uint8' && white === 255) {
    for (let i = range.to; i < end; i += 1, at += recordBytes) out[i] = view.getUint8(at);
    return;
  }
  for (let i = range.to; i < end; i += 1, at += recordBytes) out[i] = brightness(numberAt(view, at, field.type, littleEndian), white);
}

/** 0 to 255; what is not a number is dark. */
export function brightness(value: number, white: number): number {
  const scaled = Math.round(value / white * 255);
  return scaled > 0 ? Math.min(255, scaled) : 0;
}

/** The three columns of colour. */
export interface Channels { readonly red: Uint8Array; readonly green: Uint8Array; readonly blue: Uint8Array }

/** Reads the packed colour of each record. */
export function readPacked(view: DataView, records: RecordShape, offset: number, range: PointRange, out: Channels): void {
  const end = range.to + range.count;
  let at = range.atByte + offset;
  for (let i = range.to; i < end; i += 1, at += records.recordBytes) setPacked(out, i, view.getUint32(at, records.littleEndian));
}

/** Takes 0x00RRGGBB apart. */
export function setPacked(out: Channels, i: number, packed: number): void {
  out.red[i] = packed >>> 16 & 255;
  out.green[i] = packed >>> 8 & 255;
  out.blue[i] = packed & 255;
}
