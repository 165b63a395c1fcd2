/** Which records to read and where to put them. */
export interface PointRange {
  /** Place of the first of them in the bytes. */
  readonly atByte: number;
  readonly count: number;
  /** Place of the first point in the columns. */
  readonly to: number;
}

/** No coordinate may lie further from the origin, in the file's unit. Beyond it 32-bit numbers are coarser than 0.06. */
export const FARTHEST = 1e6;
