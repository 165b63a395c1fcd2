import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { FieldType } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { refuseCloud } from './cloudFile.ts';
import type { PcdField, PcdHeader } from './pcdHeader.ts';
import { COLOUR_NAMES } from './plyRecords.ts';

/** Which fields of a PCD file, by index, hold position and colour. */
export interface PcdPoints {
  readonly x: number;
  readonly y: number;
  readonly z: number;
  readonly channels?: readonly [red: number, green: number, blue: number];
  readonly packed?: number;
}

/** Finds position and colour among the fields. A packed colour is named rgb or rgba and has 4 bytes, whatever its type. */
export function findPcdPoints({ fields }: PcdHeader, file: CloudFile): Outcome<PcdPoints> {
  const place = (wanted: string) => fields.findIndex(({ name }) => name.toLowerCase() === wanted);
  const [x, y, z] = ['x', 'y', 'z'].map(place) as [number, number, number];
  if ([x, y, z].some((at) => fields[at]?.type === undefined)) {
    return refused([refuseCloud('value-missing', file.name, 'The points need fields x, y and z of a type up to 64-bit floating point.', { value: fields.map(({ name }) => name), limit: ['x', 'y', 'z'] })]);
  }
  const packed = fields.findIndex(({ name, bytes }) => (name === 'rgb' || name === 'rgba') && bytes === 4);
  if (packed >= 0) return accepted({ x, y, z, packed });
  const channels = COLOUR_NAMES.map((names) => names.map(place)).find((places) => areChannels(places.map((at) => fields[at])));
  return accepted({ x, y, z, ...(channels && { channels: channels as [number, number, number] }) });
}

function areChannels(fields: readonly (PcdField | undefined)[]): boolean {
  const type: FieldType | undefined = fields[0]?.type;
  return type !== undefined && fields.every((field) => field?.type === type);
}
