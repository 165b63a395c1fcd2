import type { PointCloud } from './pointCloud.ts';

/** Number types of a field of a record. `float-bits` of PCD colours are read as uint32. */
export type FieldType = 'int8' | 'uint8' | 'int16' | 'uint16' | 'int32' | 'uint32' | 'float32' | 'float64';

/** Where a field lies in a record and what it is. */
export interface RecordField {
  readonly offset: number;
  readonly type: FieldType;
  /** One step of the stored number in the file's unit; 1 when absent. */
  readonly step?: number;
  /** What a stored zero means, in the file's unit; 0 when absent. */
  readonly shift?: number;
}

/**
 * A file of records of one size (binary PLY, binary PCD): pieces of it can be read in any order and by several threads. Plain values
 * only, so that it can be posted to a worker. What is neither this nor small enough to be read at once does not exist: readers of every
 * other form (ascii, compressed, LAS, LAZ) give the whole PointCloud.
 */
export interface PointRecords {
  readonly count: number;
  /** Place of record 0 in the file. */
  readonly firstByte: number;
  readonly recordBytes: number;
  readonly littleEndian: boolean;
  readonly x: RecordField;
  readonly y: RecordField;
  readonly z: RecordField;
  readonly origin: PointCloud['origin'];
  readonly colour?: RecordColour;
}

/** Three fields whose full brightness is `white`, or one uint32 that holds 0x00RRGGBB. */
export type RecordColour =
  | { readonly red: RecordField; readonly green: RecordField; readonly blue: RecordField; readonly white: number }
  | { readonly packed: RecordField };
