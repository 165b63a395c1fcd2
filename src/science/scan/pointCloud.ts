/**
 * Points of a cloud, or of one piece of it, in columns: the form in which every reader gives points and every step of the scan takes
 * them. Index i of each column belongs to point i; columns may be longer than `count` (they are reused from piece to piece).
 *
 * Coordinates stand in the unit and along the axes of the file, less `origin`: a georeferenced cloud lies millions of millimetres away
 * from zero, where 32-bit numbers are too coarse. A reader takes as origin what it likes (zero, a header's offset, the first point) as
 * long as every piece of one file has the same. Unit, upward axis and place of the basin are found by the pose, not by the reader.
 */
export interface PointCloud {
  readonly count: number;
  /** File coordinate = origin + x; in the file's unit (m or mm), finite, |x| below 1e6. */
  readonly x: Float32Array;
  readonly y: Float32Array;
  readonly z: Float32Array;
  readonly origin: readonly [x: number, y: number, z: number];
  /** 0 to 255; all three or none. 16-bit colours of a file are divided by 257. */
  readonly red?: Uint8Array;
  readonly green?: Uint8Array;
  readonly blue?: Uint8Array;
}
