import type { RandomStream } from '../../src/science/seededRandom.ts';
import type { WrittenCloud } from './writeClouds.ts';

const RECORD_BYTES = [20, 28, 26, 34, 57, 63, 30, 36, 38, 59, 67];
const COLOUR_AT = [0, 0, 20, 28, 0, 28, 0, 30, 30, 0, 30];
const HEADER_BYTES: Readonly<Record<number, number>> = { 2: 227, 3: 235, 4: 375 };
const STEP = 0.0001;

/**
 * Writes LAS 1.2 to 1.4, or LAZ in chunks of one point: the first point of each chunk is stored as it is, with four bytes for the decoder
 * to start on, so no packing is needed to try the unpacking. Real packed files are not made here.
 */
export function writeLas(count: number, random: RandomStream, packed: boolean): WrittenCloud {
  const minor = 2 + random.below(3);
  const format = packed ? random.below(4) : random.below(minor === 2 ? 4 : minor === 3 ? 6 : 11);
  const recordBytes = RECORD_BYTES[format]! + (packed ? 0 : random.below(3));
  const shift = random.uniform() < 0.5 ? 0 : 500_000;
  const eightBit = random.uniform() < 0.5;
  const raw = Array.from({ length: count }, () => [random.below(13_000), -random.below(13_000), random.below(2000)] as [number, number, number]);
  const colours = COLOUR_AT[format] === 0 ? undefined : raw.map(() => [random.below(256), random.below(256), random.below(256)] as [number, number, number]);
  const records = raw.map((point, i) => writeRecord(point, colours?.[i]?.map((part) => eightBit ? part : part * 257), recordBytes, COLOUR_AT[format]!));
  const points = raw.map((point) => point.map((value) => value * STEP + shift) as [number, number, number]);
  const description = packed ? describePacking(recordBytes) : new Uint8Array(0);
  const header = writeHeader({ minor, format: format | (packed ? 128 : 0), recordBytes, count, shift, descriptionBytes: description.length, points });
  const body = packed ? packRecords(records, header.length + description.length) : records;
  return { kind: packed ? 'laz' : `las 1.${minor} format ${format}`, bytes: new Uint8Array(Buffer.concat([header, description, ...body])), points, colours };
}

function writeRecord(point: readonly number[], colour: readonly number[] | undefined, recordBytes: number, colourAt: number): Uint8Array {
  const view = new DataView(new ArrayBuffer(recordBytes));
  point.forEach((value, axis) => view.setInt32(axis * 4, value, true));
  colour?.forEach((value, part) => view.setUint16(colourAt + part * 2, value, true));
  return new Uint8Array(view.buffer);
}

interface HeaderShape { readonly minor: number; readonly format: number; readonly recordBytes: number; readonly count: number; readonly shift: number; readonly descriptionBytes: number; readonly points: readonly (readonly number[])[] }

function writeHeader({ minor, format, recordBytes, count, shift, descriptionBytes, points }: HeaderShape): Uint8Array {
  const size = HEADER_BYTES[minor]!;
  const bytes = new Uint8Array(size);
  const view = new DataView(bytes.buffer);
  bytes.set([76, 65, 83, 70]);
  view.setUint8(24, 1);
  view.setUint8(25, minor);
  view.setUint16(94, size, true);
  view.setUint32(96, size + descriptionBytes, true);
  view.setUint32(100, descriptionBytes === 0 ? 0 : 1, true);
  view.setUint8(104, format);
  view.setUint16(105, recordBytes, true);
  view.setUint32(107, count, true);
  for (let axis = 0; axis < 3; axis += 1) {
    view.setFloat64(131 + axis * 8, STEP, true);
    view.setFloat64(155 + axis * 8, shift, true);
    view.setFloat64(179 + axis * 16, Math.max(...points.map((point) => point[axis]!)), true);
    view.setFloat64(187 + axis * 16, Math.min(...points.map((point) => point[axis]!)), true);
  }
  if (minor === 4) view.setBigUint64(247, BigInt(count), true);
  return bytes;
}

/** The record that says: points packed one by one, in chunks of one. */
function describePacking(recordBytes: number): Uint8Array {
  const items: [type: number, size: number][] = recordBytes === 20 ? [[6, 20]] : recordBytes === 28 ? [[6, 20], [7, 8]] : recordBytes === 26 ? [[6, 20], [8, 6]] : [[6, 20], [7, 8], [8, 6]];
  const length = 34 + items.length * 6;
  const bytes = new Uint8Array(54 + length);
  const view = new DataView(bytes.buffer);
  bytes.set(Buffer.from('laszip encoded'), 2);
  view.setUint16(18, 22_204, true);
  view.setUint16(20, length, true);
  view.setUint16(54, 2, true);
  view.setUint8(58, 2);
  view.setUint32(66, 1, true);
  view.setInt32(70, -1, true);
  view.setInt32(78, -1, true);
  view.setUint16(86, items.length, true);
  items.forEach(([type, size], i) => {
    view.setUint16(88 + i * 6, type, true);
    view.setUint16(90 + i * 6, size, true);
    view.setUint16(92 + i * 6, 2, true);
  });
  return bytes;
}

function packRecords(records: readonly Uint8Array[], firstByte: number): Uint8Array[] {
  const chunks = records.flatMap((record) => [record, new Uint8Array(4)]);
  const start = new DataView(new ArrayBuffer(8));
  start.setBigInt64(0, BigInt(firstByte + 8 + chunks.reduce((sum, { length }) => sum + length, 0)), true);
  const table = new DataView(new ArrayBuffer(8 + records.length * 8));
  table.setUint32(4, records.length, true);
  return [new Uint8Array(start.buffer), ...chunks, new Uint8Array(table.buffer)];
}
