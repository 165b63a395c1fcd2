import type { Refusal } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { refuseCloud } from './cloudFile.ts';
import { latin1 } from './headerLines.ts';

const RECORD_HEADER_BYTES = 54;
const PACKING_RECORD = { user: 'laszip encoded', id: 22_204 } as const;
/** Chunks of differing size. */
const VARIABLE = 0xffff_ffff;
/** Point-wise packing in chunks, and its layered form for point formats 6 to 10: the two that are in use. */
const PACKINGS: ReadonlySet<number> = new Set([2, 3]);

/**
 * Refuses a whole LAZ file whose records about the packing contradict each other or the file. The unpacking library believes them, so
 * what it would do with false ones must not be tried. Source: M. Isenburg 2013, "LASzip: lossless compression of LiDAR data", PE&RS 79.
 */
export function checkLazRecords(bytes: Uint8Array, count: number, file: CloudFile): Refusal[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const firstByte = view.getUint32(96, true);
  const wrong = (what: string): Refusal[] => [refuseCloud('inconsistent', file.name, `${what} Export the file again.`)];
  const chunkSize = findChunkSize(bytes, view, firstByte);
  if (chunkSize === undefined) return wrong('The header\'s records do not say how the points are packed.');
  if (firstByte + 8 > bytes.length) return wrong('There is no room for points.');
  const tableAt = Number(view.getBigInt64(firstByte, true));
  if (tableAt < firstByte + 8 || tableAt + 8 > bytes.length) return wrong('The table of chunks lies outside of the file.');
  const chunks = view.getUint32(tableAt + 4, true);
  const fits = chunkSize === VARIABLE ? chunks > 0 && chunks <= count : chunkSize > 0 && chunks === Math.ceil(count / chunkSize);
  return fits ? [] : wrong('The number of chunks does not fit the number of points.');
}

/** Points in each chunk, from the record that describes the packing; absent when the records do not fit in or it is not among them. */
function findChunkSize(bytes: Uint8Array, view: DataView, firstByte: number): number | undefined {
  let at = view.getUint16(94, true);
  let found: number | undefined;
  for (let left = view.getUint32(100, true); left > 0; left -= 1) {
    if (at + RECORD_HEADER_BYTES > firstByte) return undefined;
    const length = view.getUint16(at + 20, true);
    const body = at + RECORD_HEADER_BYTES;
    if (body + length > firstByte) return undefined;
    const isPacking = latin1(bytes.subarray(at + 2, at + 18)).startsWith(PACKING_RECORD.user) && view.getUint16(at + 18, true) === PACKING_RECORD.id;
    if (isPacking) {
      if (length < 34 || !PACKINGS.has(view.getUint16(body, true))) return undefined;
      found = view.getUint32(body + 12, true);
    }
    at = body + length;
  }
  return found;
}
