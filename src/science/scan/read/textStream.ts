import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { CloudFile } from './cloudFile.ts';
import { CLOUD_LIMITS, checkLength, refuseCloud, refusePoint } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { originAlong } from './originOf.ts';
import { PieceJoiner } from './pieceJoiner.ts';
import type { PointColumns } from './pointColumns.ts';
import { allocateColumns } from './pointColumns.ts';
import { FARTHEST } from './pointRange.ts';
import { brightness, setPacked } from './readPoints.ts';
import { RowNumbers } from './rowNumbers.ts';
import type { TextElement, TextPoint } from './textRows.ts';
import { unpackText } from './unpackText.ts';

/** Where the text begins and what its rows hold. */
export interface TextShape {
  readonly firstByte: number;
  /** Line number of the first row. */
  readonly firstLine: number;
  /** The byte that ends a line. */
  readonly lineEnd: number;
  readonly elements: readonly TextElement[];
  /** The one of them that holds the points. */
  readonly points: TextElement;
  readonly point: TextPoint;
}

/** Reads text rows, one entry a line, elements one after the other; empty lines are passed over. */
export class TextStream implements CloudStream {
  private readonly joiner = new PieceJoiner();
  private readonly row = new RowNumbers(CLOUD_LIMITS.recordBytes / 2);
  private readonly starts: Int32Array;
  private readonly columns: PointColumns;
  private readonly shape: TextShape;
  private readonly file: CloudFile;
  private origin: PointCloud['origin'] = [0, 0, 0];
  private at = 0;
  private line: number;
  private element = 0;
  private entry = 0;
  private points = 0;
  private refusal: Refusal | undefined;

  constructor(shape: TextShape, file: CloudFile) {
    this.shape = shape;
    this.file = file;
    this.line = shape.firstLine;
    this.starts = new Int32Array(Math.max(...shape.elements.map(({ lists }) => lists.length)));
    this.columns = allocateColumns(shape.points.count, shape.point.colour !== undefined);
  }

  push(piece: Uint8Array): boolean {
    const skipped = Math.min(piece.length, Math.max(0, this.shape.firstByte - this.at));
    this.at += piece.length;
    return this.refusal === undefined && this.joiner.push(piece.subarray(skipped), (bytes) => this.take(bytes));
  }

  private take(bytes: Uint8Array): number {
    let from = 0;
    for (;;) {
      const end = bytes.indexOf(this.shape.lineEnd, from);
      if (end < 0) break;
      if (!this.takeLine(bytes, from, end)) return -1;
      from = end + 1;
    }
    return bytes.length - from <= CLOUD_LIMITS.recordBytes || this.refuse('syntax', `A line is longer than ${CLOUD_LIMITS.recordBytes} bytes.`) ? from : -1;
  }

  private takeLine(bytes: Uint8Array, from: number, end: number): boolean {
    if (!this.row.read(bytes, from, end)) return this.refuse('syntax', 'The row holds something that is not a number.');
    if (this.row.count > 0 && !this.takeRow()) return false;
    this.line += 1;
    return true;
  }

  private takeRow(): boolean {
    const element = this.elementOfRow();
    if (element === undefined) return this.refuse('cloud-length-wrong', 'There are more rows than the header names. Export the file again.');
    this.entry += 1;
    const numbers = this.layOut(element);
    if (numbers !== this.row.count) return this.refuse('inconsistent', `A row of "${element.name}" should hold ${numbers} numbers.`, this.row.count, numbers);
    return element !== this.shape.points || this.takePoint();
  }

  /** The element whose turn it is, if any entry of any is still due. */
  private elementOfRow(): TextElement | undefined {
    const { elements } = this.shape;
    while (this.element < elements.length && this.entry >= elements[this.element]!.count) {
      this.element += 1;
      this.entry = 0;
    }
    return elements[this.element];
  }

  /** Finds where each property begins in the row; returns how many numbers the row should have. */
  private layOut({ lists }: TextElement): number {
    let next = 0;
    for (let i = 0; i < lists.length; i += 1) {
      this.starts[i] = next;
      next += 1 + (lists[i]! && next < this.row.count ? wholeOrNever(this.row.values[next]!) : 0);
    }
    return next;
  }

  private takePoint(): boolean {
    const { point } = this.shape;
    const [x, y, z] = [this.valueOf(point.x), this.valueOf(point.y), this.valueOf(point.z)];
    if (this.points === 0) this.origin = [originAlong(x), originAlong(y), originAlong(z)];
    const i = this.points;
    this.columns.x[i] = x - this.origin[0];
    this.columns.y[i] = y - this.origin[1];
    this.columns.z[i] = z - this.origin[2];
    this.points += 1;
    this.takeColour(i);
    if (this.isNear(x, 0) && this.isNear(y, 1) && this.isNear(z, 2)) return true;
    this.refusal = refusePoint(this.file, i);
    return false;
  }

  private valueOf(property: number): number { return this.row.values[this.starts[property]!]!; }

  private isNear(value: number, axis: 0 | 1 | 2): boolean { return Math.abs(value - this.origin[axis]) < FARTHEST; }

  private takeColour(i: number): void {
    const { colour } = this.shape.point;
    const { red, green, blue } = this.columns;
    if (colour === undefined || red === undefined || green === undefined || blue === undefined) return;
    if ('packed' in colour) return setPacked({ red, green, blue }, i, unpackText(this.valueOf(colour.packed)));
    red[i] = brightness(this.valueOf(colour.red), colour.white);
    green[i] = brightness(this.valueOf(colour.green), colour.white);
    blue[i] = brightness(this.valueOf(colour.blue), colour.white);
  }

  /** Always false. */
  private refuse(code: Refusal['code'], message: string, value?: unknown, limit?: unknown): false {
    this.refusal = refuseCloud(code, `${this.file.name}:${this.line}`, message, { value, limit });
    return false;
  }

  finish(): Outcome<PointCloud> {
    const last = this.joiner.rest();
    if (this.refusal === undefined && last.length > 0) this.takeLine(last, 0, last.length);
    if (this.refusal === undefined && this.at !== this.file.bytes) return refused(checkLength({ ...this.file, bytes: this.at }, this.file.bytes, true));
    if (this.refusal === undefined && this.elementOfRow() !== undefined) this.refuse('cloud-length-wrong', `The file ends after ${this.points} of ${this.shape.points.count} points and ${this.entry} rows of "${this.elementOfRow()?.name}". Copy or export it again.`, this.points, this.shape.points.count);
    if (this.refusal !== undefined) return refused([this.refusal]);
    return accepted({ count: this.points, origin: this.origin, ...this.columns });
  }
}

/** A list of no whole count makes a row that no row can match. */
const wholeOrNever = (count: number) => Number.isInteger(count) && count >= 0 ? count : Number.POSITIVE_INFINITY;
