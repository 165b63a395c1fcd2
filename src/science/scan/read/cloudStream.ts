import type { Outcome } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';

/**
 * Reads a cloud from the bytes of its file in order, in pieces of any length. What is kept besides the columns is bounded: less than
 * one record, line or window.
 */
export interface CloudStream {
  /** Takes the next piece. False once the file is known to be faulty: no more pieces are needed, finish() says why. */
  push(piece: Uint8Array): boolean;
  /** After the last piece: the whole cloud, or why there is none. */
  finish(): Outcome<PointCloud>;
}
