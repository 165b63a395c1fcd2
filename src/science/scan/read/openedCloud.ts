import type { PointRecords } from '../pointRecords.ts';
import type { CloudStream } from './cloudStream.ts';

/** A cloud whose header was read and found sound, and whose length fits it. */
export interface OpenedCloud {
  readonly format: 'ply' | 'pcd' | 'las';
  readonly count: number;
  /** Present when the points are records of one size, which can be read with readPoints in any order and by several threads. */
  readonly records?: PointRecords;
  /** Reads the file from its first byte to its last. */
  startStream(): CloudStream;
}
