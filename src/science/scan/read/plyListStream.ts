import type { Outcome, Refusal } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { CloudFile } from './cloudFile.ts';
import { CLOUD_LIMITS, checkLength, refuseCloud, refusePoint } from './cloudFile.ts';
import type { CloudStream } from './cloudStream.ts';
import { BYTES_OF, numberAt } from './fieldType.ts';
import { originOf } from './originOf.ts';
import { PieceJoiner } from './pieceJoiner.ts';
import type { PlyElement, PlyHeader } from './plyHeader.ts';
import { elementBytes, pointFields } from './plyRecords.ts';
import type { PointColumns } from './pointColumns.ts';
import { allocateColumns } from './pointColumns.ts';
import { readPoints } from './readPoints.ts';

/** Reads binary PLY files in which an element, maybe the points themselves, has lists. Records are walked one by one. */
export class PlyListStream implements CloudStream {
  private readonly joiner = new PieceJoiner();
  private readonly little: boolean;
  private readonly header: PlyHeader;
  private readonly vertices: PlyElement;
  private readonly columns: PointColumns;
  private readonly file: CloudFile;
  /** Of the properties of the record at hand. */
  private readonly offsets: number[] = [];
  /** Bytes of each point when it has no lists. */
  private readonly pointBytes: number | undefined;
  private origin: PointCloud['origin'] | undefined;
  private at = 0;
  private element = 0;
  private entry = 0;
  private refusal: Refusal | undefined;

  constructor(header: PlyHeader, vertices: PlyElement, file: CloudFile) {
    this.header = header;
    this.vertices = vertices;
    this.file = file;
    this.little = header.coding === 'binary_little_endian';
    this.pointBytes = elementBytes(vertices).exact ? elementBytes(vertices).bytes / vertices.count : undefined;
    this.columns = allocateColumns(vertices.count, pointFields(vertices).colour !== undefined);
  }

  push(piece: Uint8Array): boolean {
    const skipped = Math.min(piece.length, Math.max(0, this.header.firstByte - this.at));
    this.at += piece.length;
    return this.refusal === undefined && this.joiner.push(piece.subarray(skipped), (bytes) => this.take(bytes));
  }

  private take(bytes: Uint8Array): number {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    let at = 0;
    for (;;) {
      const element = this.elementOfRecord();
      if (element === undefined) return at === bytes.length ? at : this.refuse('cloud-length-wrong', 'The file goes on after the last record. Export it again.');
      if (element === this.vertices && this.pointBytes !== undefined) {
        const whole = Math.min(Math.floor((bytes.length - at) / this.pointBytes), element.count - this.entry);
        if (whole === 0) return at;
        if (!this.takePoints(bytes, at, this.pointBytes, whole)) return -1;
        at += whole * this.pointBytes;
        continue;
      }
      const length = this.recordLength(element, view, at);
      if (length > CLOUD_LIMITS.recordBytes) return this.refuse('syntax', `Record ${this.entry} of "${element.name}" has a list that is not believed.`);
      if (at + length > bytes.length) return at;
      if (element !== this.vertices) this.entry += 1;
      else if (!this.takePoints(bytes, at, length, 1)) return -1;
      at += length;
    }
  }

  private elementOfRecord(): PlyElement | undefined {
    const { elements } = this.header;
    while (this.element < elements.length && (this.entry >= elements[this.element]!.count || elements[this.element]!.properties.length === 0)) {
      this.element += 1;
      this.entry = 0;
    }
    return elements[this.element];
  }

  /** Bytes of the record at hand, or at least as many as can be told from what is there; offsets of its properties as a by-product. */
  private recordLength(element: PlyElement, view: DataView, at: number): number {
    let length = 0;
    for (let i = 0; i < element.properties.length; i += 1) {
      const { type, listCount } = element.properties[i]!;
      this.offsets[i] = length;
      if (listCount === undefined) { length += BYTES_OF[type]; continue; }
      if (at + length + BYTES_OF[listCount] > view.byteLength) return length + BYTES_OF[listCount];
      const count = numberAt(view, at + length, listCount, this.little);
      if (count < 0) return Number.POSITIVE_INFINITY;
      length += BYTES_OF[listCount] + count * BYTES_OF[type];
    }
    return length;
  }

  private takePoints(bytes: Uint8Array, at: number, recordBytes: number, count: number): boolean {
    const records = { count, firstByte: 0, recordBytes, littleEndian: this.little, ...pointFields(this.vertices, this.pointBytes === undefined ? this.offsets : undefined) };
    this.origin ??= originOf(records, bytes.subarray(at, at + recordBytes));
    const sound = readPoints(bytes, { ...records, origin: this.origin }, { atByte: at, count, to: this.entry }, this.columns);
    this.entry += sound;
    if (sound === count) return true;
    this.refusal = refusePoint(this.file, this.entry);
    return false;
  }

  /** Always negative. */
  private refuse(code: Refusal['code'], message: string): number {
    this.refusal = refuseCloud(code, this.file.name, message);
    return -1;
  }

  finish(): Outcome<PointCloud> {
    if (this.refusal !== undefined) return refused([this.refusal]);
    if (this.at !== this.file.bytes) return refused(checkLength({ ...this.file, bytes: this.at }, this.file.bytes, true));
    const due = this.elementOfRecord();
    if (due !== undefined || this.joiner.rest().length > 0) return refused([refuseCloud('cloud-length-wrong', this.file.name, `The file ends after ${this.entry} of ${due?.count} records of "${due?.name}". Copy or export it again.`, { value: this.entry, limit: due?.count })]);
    return accepted({ count: this.vertices.count, origin: this.origin ?? [0, 0, 0], ...this.columns });
  }
}
