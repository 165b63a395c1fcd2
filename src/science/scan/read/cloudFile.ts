import type { Refusal } from '../../refusal.ts';
import type { RefusalCode } from '../../refusalCodes.ts';

/** The file that a cloud is read from: its name (for refusals) and its length. */
export interface CloudFile {
  readonly name: string;
  readonly bytes: number;
}

/** Clouds outside of these are refused before anything is allocated. */
export const CLOUD_LIMITS = {
  /** A basin of one square metre with fewer has one point per 10 cm2. */
  leastPoints: 1000,
  /** 30 million points are 450 MB in columns. */
  mostPoints: 30_000_000,
  headerBytes: 65_536,
  /** Of one record with lists, or one line of text. */
  recordBytes: 65_536,
} as const;

interface Found { readonly value?: unknown; readonly limit?: unknown; readonly unit?: string }

/** A refusal of a cloud; the place is a line, a point or a byte of the file. */
export const refuseCloud = (code: RefusalCode, path: string, message: string, found: Found = {}): Refusal => ({ code, path, message, severity: 'error', ...found });

/** The count of points of a header, when it is absurd. */
export function checkCount(file: CloudFile, count: number): Refusal[] {
  const { leastPoints, mostPoints } = CLOUD_LIMITS;
  if (count < leastPoints) return [refuseCloud('cloud-size-absurd', file.name, `The cloud has ${count} points; a scan of a basin has at least ${leastPoints}. Check that this is the right file.`, { value: count, limit: leastPoints })];
  if (count > mostPoints) return [refuseCloud('cloud-size-absurd', file.name, `The header names ${count} points; at most ${mostPoints} are read. Thin out or crop the cloud.`, { value: count, limit: mostPoints })];
  return [];
}

/** The file's length against what its header promises. `exact` is false when the header gives only the least. */
export function checkLength(file: CloudFile, expected: number, exact: boolean): Refusal[] {
  if (file.bytes >= expected && (!exact || file.bytes === expected)) return [];
  const message = `The file holds ${file.bytes} bytes; its header promises ${exact ? '' : 'at least '}${expected}. Copy or export it again.`;
  return [refuseCloud('cloud-length-wrong', file.name, message, { value: file.bytes, limit: expected, unit: 'By' })];
}

/** A point that cannot be: counted from 0 in the order of the file. */
export function refusePoint(file: CloudFile, index: number): Refusal {
  return refuseCloud('cloud-point-unsound', `${file.name} point ${index}`, `Point ${index} has a coordinate that is not a finite number, or lies further than a million units from the others. Export the cloud without invalid points.`, { limit: 'finite, nearer than 1000000 units' });
}
