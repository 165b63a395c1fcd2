import type { PointRecords, RecordField } from '../pointRecords.ts';
import { numberAt } from './fieldType.ts';

/** Nearer to zero than this, 32-bit numbers are fine as they are, in metres or in millimetres. */
const NEAR = 10_000;
/** Beyond it no coordinate is believed; its point will be refused as unsound. */
const FAR = 1e10;

/**
 * What to take off the coordinates so that 32-bit columns hold them: nothing for small ones, otherwise those of the first point, cut to
 * whole units. 32-bit numbers in the file are taken as they are.
 */
export function originOf(records: Omit<PointRecords, 'origin'>, firstRecord: Uint8Array): PointRecords['origin'] {
  if (firstRecord.length < records.recordBytes) return [0, 0, 0];
  const view = new DataView(firstRecord.buffer, firstRecord.byteOffset, firstRecord.byteLength);
  const along = (field: RecordField) => {
    if (field.type === 'float32') return 0;
    return originAlong(numberAt(view, field.offset, field.type, records.littleEndian) * (field.step ?? 1) + (field.shift ?? 0));
  };
  return [along(records.x), along(records.y), along(records.z)];
}

/** The part of one coordinate of the first point that is taken off. */
export const originAlong = (first: number): number => Math.abs(first) > NEAR && Math.abs(first) < FAR ? Math.trunc(first) : 0;
