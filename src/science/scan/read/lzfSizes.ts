import type { Refusal } from '../../refusal.ts';
import type { CloudFile } from './cloudFile.ts';
import { checkLength, refuseCloud } from './cloudFile.ts';

/** Packed and unpacked size, 4 bytes each. */
export const LZF_SIZES_BYTES = 8;
/** No instruction of LZF makes more of less: 264 bytes of 3. */
const MOST_GROWTH = 88;

/** Refuses a compressed body whose two sizes contradict the file, the header or the method. */
export function checkLzfSizes(sizes: Uint8Array, sizesAt: number, unpackedBytes: number, file: CloudFile): Refusal[] {
  if (sizes.length < LZF_SIZES_BYTES) return checkLength(file, sizesAt + LZF_SIZES_BYTES, false);
  const view = new DataView(sizes.buffer, sizes.byteOffset, sizes.byteLength);
  const [packed, unpacked] = [view.getUint32(0, true), view.getUint32(4, true)];
  const wrong = checkLength(file, sizesAt + LZF_SIZES_BYTES + packed, true);
  if (unpacked !== unpackedBytes) wrong.push(refuseCloud('inconsistent', file.name, 'The unpacked size is not that of the points the header names. Export the file again.', { value: unpacked, limit: unpackedBytes, unit: 'By' }));
  if (unpacked > packed * MOST_GROWTH) wrong.push(refuseCloud('inconsistent', file.name, 'So few bytes cannot unpack to so many. Export the file again.', { value: packed, limit: Math.ceil(unpacked / MOST_GROWTH), unit: 'By' }));
  return wrong;
}
