import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointRecords, RecordField } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { WHITE_OF } from './fieldType.ts';
import { checkLzfSizes, LZF_SIZES_BYTES } from './lzfSizes.ts';
import type { OpenedCloud } from './openedCloud.ts';
import { originOf } from './originOf.ts';
import { PcdColumnStream } from './pcdColumnStream.ts';
import type { PcdHeader } from './pcdHeader.ts';
import { readPcdHeader } from './pcdHeader.ts';
import type { PcdPoints } from './pcdPoints.ts';
import { findPcdPoints } from './pcdPoints.ts';
import { RecordStream } from './recordStream.ts';
import type { TextPoint } from './textRows.ts';
import { TextStream } from './textStream.ts';

/** Opens a PCD file; see openCloud. */
export function openPcd(head: Uint8Array, file: CloudFile): Outcome<OpenedCloud> {
  const header = readPcdHeader(head, file);
  if (!header.ok) return header;
  const points = findPcdPoints(header.value, file);
  if (!points.ok) return points;
  if (header.value.coding === 'ascii') return openText(header.value, points.value, file);
  return header.value.coding === 'binary' ? openRecords(header.value, points.value, head, file) : openCompressed(header.value, points.value, head, file);
}

const opened = (count: number, startStream: () => CloudStream): Outcome<OpenedCloud> => accepted({ format: 'pcd', count, startStream });

function openText(header: PcdHeader, points: PcdPoints, file: CloudFile): Outcome<OpenedCloud> {
  const numbers = header.fields.reduce((sum, { count }) => sum + count, 0);
  const wrong = checkLength(file, header.lastLine.nextByte + header.count * numbers * 2 - 1, false);
  if (wrong.length > 0) return refused(wrong);
  const rows = { name: 'points', count: header.count, lists: new Array<boolean>(numbers).fill(false) };
  const { nextByte, number, lineEnd } = header.lastLine;
  const shape = { firstByte: nextByte, firstLine: number + 1, lineEnd, elements: [rows], points: rows, point: textPoint(header, points) };
  return opened(header.count, () => new TextStream(shape, file));
}

function textPoint({ fields }: PcdHeader, { x, y, z, channels, packed }: PcdPoints): TextPoint {
  const place = (index: number) => fields.slice(0, index).reduce((sum, { count }) => sum + count, 0);
  const position = { x: place(x), y: place(y), z: place(z) };
  if (packed !== undefined) return { ...position, colour: { packed: place(packed) } };
  if (channels === undefined) return position;
  return { ...position, colour: { red: place(channels[0]), green: place(channels[1]), blue: place(channels[2]), white: WHITE_OF[fields[channels[0]]!.type!] } };
}

const pointBytes = ({ fields }: PcdHeader) => fields.reduce((sum, { bytes, count }) => sum + bytes * count, 0);

function openRecords(header: PcdHeader, points: PcdPoints, head: Uint8Array, file: CloudFile): Outcome<OpenedCloud> {
  const wrong = checkLength(file, header.lastLine.nextByte + header.count * pointBytes(header), true);
  if (wrong.length > 0) return refused(wrong);
  const records = pcdRecords(header, points, head);
  return accepted({ format: 'pcd', count: header.count, records, startStream: () => new RecordStream(records, file) });
}

/** The format says nothing of byte order; its programs write that of the machine, which is little-endian on all that matter. */
function pcdRecords(header: PcdHeader, { x, y, z, channels, packed }: PcdPoints, head: Uint8Array): PointRecords {
  const field = (index: number): RecordField => ({ offset: header.fields.slice(0, index).reduce((sum, { bytes, count }) => sum + bytes * count, 0), type: header.fields[index]!.type ?? 'uint32' });
  const firstByte = header.lastLine.nextByte;
  const records = {
    count: header.count, firstByte, recordBytes: pointBytes(header), littleEndian: true, x: field(x), y: field(y), z: field(z),
    ...(channels && { colour: { red: field(channels[0]), green: field(channels[1]), blue: field(channels[2]), white: WHITE_OF[field(channels[0]).type] } }),
    ...(packed !== undefined && { colour: { packed: { ...field(packed), type: 'uint32' as const } } }),
  };
  return { ...records, origin: originOf(records, head.subarray(firstByte)) };
}

function openCompressed(header: PcdHeader, points: PcdPoints, head: Uint8Array, file: CloudFile): Outcome<OpenedCloud> {
  const sizesAt = header.lastLine.nextByte;
  const wrong = checkLzfSizes(head.subarray(sizesAt, sizesAt + LZF_SIZES_BYTES), sizesAt, header.count * pointBytes(header), file);
  return wrong.length > 0 ? refused(wrong) : opened(header.count, () => new PcdColumnStream(header, points, file));
}
