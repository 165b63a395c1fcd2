import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { FieldType } from '../pointRecords.ts';
import type { CloudFile } from './cloudFile.ts';
import { CLOUD_LIMITS, refuseCloud } from './cloudFile.ts';
import type { HeaderLine } from './headerLines.ts';
import { headerLines } from './headerLines.ts';

/** One number of each record, or a list of numbers with their count before them. */
export interface PlyProperty {
  readonly name: string;
  readonly type: FieldType;
  readonly listCount?: FieldType;
}

export interface PlyElement {
  readonly name: string;
  readonly count: number;
  readonly properties: readonly PlyProperty[];
}

export interface PlyHeader {
  readonly coding: 'ascii' | 'binary_little_endian' | 'binary_big_endian';
  readonly elements: readonly PlyElement[];
  /** Where the first record begins. */
  readonly firstByte: number;
  /** The line that ends the header. */
  readonly lastLine: HeaderLine;
}

/** Both spellings of the format's number types. */
const TYPES: Readonly<Record<string, FieldType>> = {
  char: 'int8', int8: 'int8', uchar: 'uint8', uint8: 'uint8', short: 'int16', int16: 'int16', ushort: 'uint16', uint16: 'uint16',
  int: 'int32', int32: 'int32', uint: 'uint32', uint32: 'uint32', float: 'float32', float32: 'float32', double: 'float64', float64: 'float64',
};
const CODINGS = ['ascii', 'binary_little_endian', 'binary_big_endian'] as const;

/**
 * Reads the header of a PLY file from its first bytes (all of it, or at least CLOUD_LIMITS.headerBytes).
 * Source: G. Turk 1994, "The PLY Polygon File Format", Stanford.
 */
export function readPlyHeader(head: Uint8Array, file: CloudFile): Outcome<PlyHeader> {
  const header = new HeaderUnderWay(file);
  for (const line of headerLines(head.subarray(0, CLOUD_LIMITS.headerBytes))) {
    if (header.read(line)) return header.finish(line);
  }
  return refused([refuseCloud('syntax', file.name, `No line "end_header" was found in the first ${Math.min(head.length, CLOUD_LIMITS.headerBytes)} bytes. Export the file again.`)]);
}

class HeaderUnderWay {
  private coding: PlyHeader['coding'] | undefined;
  private readonly elements: { name: string; count: number; properties: PlyProperty[] }[] = [];
  private readonly refusals: Refusal[] = [];
  private readonly file: CloudFile;

  constructor(file: CloudFile) { this.file = file; }

  /** True at the end of the header. */
  read(line: HeaderLine): boolean {
    const words = line.text.trim().split(/\s+/);
    if (line.number === 1) this.expect(line.text.trim() === 'ply', line, 'A PLY file begins with the line "ply".');
    else if (words[0] === 'format') this.readFormat(words, line);
    else if (words[0] === 'element') this.readElement(words, line);
    else if (words[0] === 'property') this.readProperty(words, line);
    else if (words[0] === 'end_header') return true;
    else this.expect(words[0] === 'comment' || words[0] === 'obj_info' || words[0] === '', line, 'A header line begins with format, comment, obj_info, element, property or end_header.');
    return this.refusals.length > 20;
  }

  private expect(fits: boolean, line: HeaderLine, message: string): void {
    if (!fits) this.refusals.push(refuseCloud('syntax', `${this.file.name}:${line.number}`, message, { value: line.text.slice(0, 80) }));
  }

  private readFormat(words: readonly string[], line: HeaderLine): void {
    this.expect(this.coding === undefined, line, 'The format is named once.');
    this.coding = CODINGS.find((coding) => coding === words[1]);
    if (this.coding === undefined || words[2] !== '1.0') {
      this.refusals.push(refuseCloud('cloud-format-unknown', `${this.file.name}:${line.number}`, 'PLY 1.0 is read as ascii, binary_little_endian or binary_big_endian.', { value: line.text.slice(0, 80), limit: CODINGS }));
    }
  }

  private readElement(words: readonly string[], line: HeaderLine): void {
    const [, name, count] = words;
    this.expect(words.length === 3 && /^\d{1,15}$/.test(count ?? ''), line, 'An element has a name and a whole count: "element vertex 4000000".');
    this.expect(!this.elements.some((element) => element.name === name), line, 'Each element is named once.');
    this.elements.push({ name: name ?? '', count: Number(count), properties: [] });
  }

  private readProperty(words: readonly string[], line: HeaderLine): void {
    const property = readPropertyWords(words);
    const element = this.elements.at(-1);
    this.expect(property !== undefined, line, 'A property is "property float x" or "property list uchar int vertex_indices", with the number types of PLY.');
    this.expect(element !== undefined, line, 'A property stands below its element.');
    if (property === undefined || element === undefined) return;
    this.expect(!element.properties.some(({ name }) => name === property.name), line, 'Each property of an element is named once.');
    element.properties.push(property);
  }

  finish(lastLine: HeaderLine): Outcome<PlyHeader> {
    if (this.coding === undefined && this.refusals.length === 0) this.refusals.push(refuseCloud('value-missing', this.file.name, 'The header has no format line.', { limit: CODINGS }));
    if (this.coding === undefined || this.refusals.length > 0) return refused(this.refusals);
    return accepted({ coding: this.coding, elements: this.elements, firstByte: lastLine.nextByte, lastLine });
  }
}

function readPropertyWords(words: readonly string[]): PlyProperty | undefined {
  const list = words[1] === 'list';
  const name = words[list ? 4 : 2];
  const type = TYPES[words[list ? 3 : 1] ?? ''];
  const listCount = list ? TYPES[words[2] ?? ''] : undefined;
  if (name === undefined || type === undefined || words.length !== (list ? 5 : 3)) return undefined;
  if (!list) return { name, type };
  return listCount === undefined || listCount.startsWith('float') ? undefined : { name, type, listCount };
}
