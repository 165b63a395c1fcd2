import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointRecords, RecordColour } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkCount, checkLength, refuseCloud } from './cloudFile.ts';
import { originAlong } from './originOf.ts';

/** What the public header block of a LAS or LAZ file says, as far as it is needed. */
export interface LasHeader {
  /** As the points stand in a LAS file and as LAZ unpacks them; `firstByte` and the full brightness of colours are those of LAS. */
  readonly records: PointRecords;
  readonly compressed: boolean;
  /** Where the points must end: at the end of the file, or where what the header names after them begins. */
  readonly lastByte: number;
}

/** Least record length of point formats 0 to 10, and where red, green and blue begin. */
const FORMATS: readonly { readonly bytes: number; readonly colourAt?: number }[] = [
  { bytes: 20 }, { bytes: 28 }, { bytes: 26, colourAt: 20 }, { bytes: 34, colourAt: 28 }, { bytes: 57 }, { bytes: 63, colourAt: 28 },
  { bytes: 30 }, { bytes: 36, colourAt: 30 }, { bytes: 38, colourAt: 30 }, { bytes: 59 }, { bytes: 67, colourAt: 30 },
];
const HEADER_BYTES: Readonly<Record<number, number>> = { 2: 227, 3: 235, 4: 375 };
/** Bit of the format number that marks LAZ (M. Isenburg 2013, "LASzip"; 128, or 64 of old). */
const COMPRESSED = 0xc0;
const HEADER_START_BYTES = 227;

/**
 * Reads the public header block of LAS 1.2 to 1.4 (point formats 0 to 10), also that of LAZ.
 * Source: ASPRS, LAS Specification 1.4 R15 (and 1.2, 1.3).
 */
export function readLasHeader(head: Uint8Array, file: CloudFile): Outcome<LasHeader> {
  if (head.length < HEADER_START_BYTES) return refused(checkLength({ ...file, bytes: head.length }, HEADER_START_BYTES, false));
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  const minor = view.getUint8(25);
  const format = FORMATS[view.getUint8(104) & ~COMPRESSED];
  const headerBytes = HEADER_BYTES[minor];
  if (view.getUint8(24) !== 1 || headerBytes === undefined) return refused([refuseCloud('cloud-format-unknown', file.name, 'LAS is read in versions 1.2, 1.3 and 1.4.', { value: `${view.getUint8(24)}.${minor}` })]);
  if (format === undefined) return refused([refuseCloud('cloud-format-unknown', file.name, 'LAS is read with point formats 0 to 10.', { value: view.getUint8(104) })]);
  if (head.length < headerBytes) return refused(checkLength({ ...file, bytes: head.length }, headerBytes, false));
  const refusals = checkHeader(view, headerBytes, format.bytes, file);
  const count = readCount(view, minor, file, refusals);
  if (refusals.length > 0) return refused(refusals);
  return accepted({ records: lasRecords(view, count, format.colourAt, head), compressed: (view.getUint8(104) & COMPRESSED) !== 0, lastByte: endOfPoints(view, minor, file) });
}

function checkHeader(view: DataView, headerBytes: number, leastRecord: number, file: CloudFile): Refusal[] {
  const refusals: Refusal[] = [];
  const [ownSize, firstByte, recordBytes] = [view.getUint16(94, true), view.getUint32(96, true), view.getUint16(105, true)];
  if (ownSize < headerBytes || firstByte < ownSize || firstByte > file.bytes) refusals.push(refuseCloud('inconsistent', file.name, 'The header, the place where points begin and the end of the file do not follow each other.', { value: [ownSize, firstByte, file.bytes], limit: headerBytes, unit: 'By' }));
  if (recordBytes < leastRecord) refusals.push(refuseCloud('inconsistent', file.name, 'The records are too short for the point format.', { value: recordBytes, limit: leastRecord, unit: 'By' }));
  for (const at of [131, 139, 147]) {
    const step = view.getFloat64(at, true);
    const shift = view.getFloat64(at + 24, true);
    if (!(step > 0 && step < 1e6) || !(Math.abs(shift) < 1e10)) refusals.push(refuseCloud('value-out-of-range', file.name, 'A scale factor or offset of the coordinates is not believed.', { value: [step, shift], limit: 'scale between 0 and 1000000, offset nearer than 1e10' }));
  }
  return refusals;
}

/** From version 1.4 the count has 64 bits; the old one is kept beside it for small files, and then they must agree. */
function readCount(view: DataView, minor: number, file: CloudFile, refusals: Refusal[]): number {
  const old = view.getUint32(107, true);
  const count = minor === 4 ? Number(view.getBigUint64(247, true)) : old;
  if (minor === 4 && old !== 0 && old !== count) refusals.push(refuseCloud('inconsistent', file.name, 'The two counts of points in the header differ.', { value: [old, count] }));
  refusals.push(...checkCount(file, count));
  return count;
}

/** Waveforms (from 1.3) and extended records (from 1.4) may follow the points. */
function endOfPoints(view: DataView, minor: number, file: CloudFile): number {
  const starts = [file.bytes];
  if (minor >= 3) starts.push(Number(view.getBigUint64(227, true)));
  if (minor >= 4 && view.getUint32(243, true) > 0) starts.push(Number(view.getBigUint64(235, true)));
  return Math.min(...starts.filter((start) => start > 0));
}

function lasRecords(view: DataView, count: number, colourAt: number | undefined, head: Uint8Array): PointRecords {
  const axis = (i: number) => ({ offset: i * 4, type: 'int32' as const, step: view.getFloat64(131 + i * 8, true), shift: view.getFloat64(155 + i * 8, true) });
  const least = (i: number) => originAlong(view.getFloat64(187 + i * 16, true));
  const firstByte = view.getUint32(96, true);
  const records = { count, firstByte, recordBytes: view.getUint16(105, true), littleEndian: true, x: axis(0), y: axis(1), z: axis(2), origin: [least(0), least(1), least(2)] as const };
  return colourAt === undefined ? records : { ...records, colour: lasColour(head.subarray(firstByte), records.recordBytes, colourAt) };
}

/** Colours have 16 bits, but some programs fill them with 8-bit numbers: then none of the first records goes beyond 255. */
export function lasColour(first: Uint8Array, recordBytes: number, colourAt: number): RecordColour {
  const view = new DataView(first.buffer, first.byteOffset, first.byteLength);
  let most = 0;
  for (let at = colourAt; at + 6 <= first.length; at += recordBytes) most = Math.max(most, view.getUint16(at, true), view.getUint16(at + 2, true), view.getUint16(at + 4, true));
  const channel = (i: number) => ({ offset: colourAt + i * 2, type: 'uint16' as const });
  return { red: channel(0), green: channel(1), blue: channel(2), white: most <= 255 ? 255 : 65_535 };
}
