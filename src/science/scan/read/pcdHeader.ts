import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { FieldType } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { CLOUD_LIMITS, checkCount, refuseCloud } from './cloudFile.ts';
import type { HeaderLine } from './headerLines.ts';
import { headerLines } from './headerLines.ts';

export interface PcdField {
  readonly name: string;
  /** Absent for 64-bit whole numbers, which are only passed over. */
  readonly type?: FieldType;
  /** Of one number. */
  readonly bytes: number;
  /** Numbers in each point. */
  readonly count: number;
}

export interface PcdHeader {
  readonly coding: 'ascii' | 'binary' | 'binary_compressed';
  readonly fields: readonly PcdField[];
  readonly count: number;
  /** The line that ends the header. */
  readonly lastLine: HeaderLine;
}

const TYPES: Readonly<Record<string, FieldType | undefined>> = {
  F4: 'float32', F8: 'float64', I1: 'int8', I2: 'int16', I4: 'int32', U1: 'uint8', U2: 'uint16', U4: 'uint32', I8: undefined, U8: undefined,
};
const CODINGS = ['ascii', 'binary', 'binary_compressed'] as const;
const KEYS = ['VERSION', 'FIELDS', 'SIZE', 'TYPE', 'COUNT', 'WIDTH', 'HEIGHT', 'VIEWPOINT', 'POINTS', 'DATA'];
const MOST_FIELDS = 1000;

interface Entry { readonly words: readonly string[]; readonly line: HeaderLine }

/** Reads the header of a PCD file from its first bytes. Source: Point Cloud Library, "The PCD (Point Cloud Data) file format", version 0.7. */
export function readPcdHeader(head: Uint8Array, file: CloudFile): Outcome<PcdHeader> {
  const entries = new Map<string, Entry>();
  for (const line of headerLines(head.subarray(0, CLOUD_LIMITS.headerBytes))) {
    const [key, ...words] = line.text.trim().split(/\s+/);
    if (key === undefined || key === '' || key.startsWith('#')) continue;
    if (!KEYS.includes(key) || entries.has(key)) return refused([refuseCloud('syntax', `${file.name}:${line.number}`, `A header line begins with one of ${KEYS.join(', ')}, each once.`, { value: line.text.slice(0, 80) })]);
    entries.set(key, { words, line });
    if (key === 'DATA') return readEntries(entries, line, file);
  }
  return refused([refuseCloud('syntax', file.name, 'The header of a PCD file ends with a line DATA; there is none. Export the file again.')]);
}

function readEntries(entries: ReadonlyMap<string, Entry>, lastLine: HeaderLine, file: CloudFile): Outcome<PcdHeader> {
  const refusals: Refusal[] = [];
  const version = entries.get('VERSION')?.words[0];
  if (version !== '.7' && version !== '0.7') refusals.push(refuseCloud('cloud-format-unknown', file.name, 'PCD is read in version 0.7.', { value: version, limit: '0.7' }));
  const coding = CODINGS.find((each) => each === entries.get('DATA')?.words[0]);
  if (coding === undefined) refusals.push(refuseCloud('cloud-format-unknown', `${file.name}:${lastLine.number}`, 'PCD is read as ascii, binary or binary_compressed.', { value: lastLine.text.slice(0, 80), limit: CODINGS }));
  const fields = readFields(entries, file, refusals);
  const count = readCount(entries, file, refusals);
  if (refusals.length > 0 || coding === undefined || fields === undefined || count === undefined) return refused(refusals);
  return accepted({ coding, fields, count, lastLine });
}

function readFields(entries: ReadonlyMap<string, Entry>, file: CloudFile, refusals: Refusal[]): readonly PcdField[] | undefined {
  const [names, sizes, types] = ['FIELDS', 'SIZE', 'TYPE'].map((key) => entries.get(key)?.words ?? []) as [readonly string[], readonly string[], readonly string[]];
  const counts = entries.get('COUNT')?.words ?? names.map(() => '1');
  if (names.length === 0 || names.length > MOST_FIELDS || [sizes, types, counts].some(({ length }) => length !== names.length)) {
    refusals.push(refuseCloud('inconsistent', file.name, 'FIELDS, SIZE, TYPE and COUNT must each have one word for every field.', { value: [names, sizes, types, counts].map(({ length }) => length) }));
    return undefined;
  }
  return names.map((name, i) => readField(name, `${types[i]}${sizes[i]}`, counts[i]!, file, refusals));
}

function readField(name: string, kind: string, count: string, file: CloudFile, refusals: Refusal[]): PcdField {
  if (!Object.hasOwn(TYPES, kind)) refusals.push(refuseCloud('value-not-allowed', `${file.name} field ${name}`, 'The type and size of a field are one of F4, F8, I1, I2, I4, I8, U1, U2, U4 and U8.', { value: kind, limit: Object.keys(TYPES) }));
  if (!/^\d{1,5}$/.test(count) || Number(count) === 0) refusals.push(refuseCloud('value-out-of-range', `${file.name} field ${name}`, 'The count of a field is a whole number from 1 to 99999.', { value: count }));
  const type = TYPES[kind];
  return { name, bytes: Number(kind.slice(1)), count: Number(count), ...(type && { type }) };
}

function readCount(entries: ReadonlyMap<string, Entry>, file: CloudFile, refusals: Refusal[]): number | undefined {
  const read = (key: string) => {
    const word = entries.get(key)?.words[0] ?? '';
    return /^\d{1,15}$/.test(word) ? Number(word) : undefined;
  };
  const [width, height, points] = [read('WIDTH'), read('HEIGHT'), read('POINTS')];
  if (width === undefined || height === undefined || (points ?? width * height) !== width * height) {
    refusals.push(refuseCloud('inconsistent', file.name, 'WIDTH, HEIGHT and POINTS are whole numbers, and WIDTH times HEIGHT is POINTS.', { value: [width, height, points] }));
    return undefined;
  }
  refusals.push(...checkCount(file, width * height));
  return width * height;
}
