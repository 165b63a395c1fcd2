import type { PointsHeader } from '../../../desk/contract.ts';
import { readFramed } from './readFramed.ts';

/** A stretch of a scan's points. */
export interface PointStretch {
  readonly header: PointsHeader;
  /** x, y, z between low and high of the header, and the label. */
  readonly places: Uint16Array;
  /** Red, green, blue. */
  readonly tints: Uint8Array;
}

/** Reads points as the desk sends them; the arrays are views, nothing is copied. */
export function readPoints(bytes: ArrayBuffer): PointStretch {
  const { header, from } = readFramed<PointsHeader>(bytes);
  if (bytes.byteLength < from + 11 * header.count) throw new Error('The points came incomplete.');
  return { header, places: new Uint16Array(bytes, from, 4 * header.count), tints: new Uint8Array(bytes, from + 8 * header.count, 3 * header.count) };
}
