import type { FieldHeader } from '../../../desk/contract.ts';
import { readFramed } from './readFramed.ts';

/** The height field of a scan, cell by cell, row by row from the lowest y. */
export interface HeightPicture extends FieldHeader {
  /** 0: nothing was seen there. */
  readonly heights: Uint16Array;
  /** 0: no plant; n: the (n-1)-th plant of the scan. */
  readonly labels: Uint16Array;
  /** Red, green, blue. */
  readonly colours: Uint8Array;
}

/** Reads a height field as the desk sends it; the arrays are views, nothing is copied. */
export function readHeightPicture(bytes: ArrayBuffer): HeightPicture {
  const { header, from } = readFramed<FieldHeader>(bytes);
  const cells = header.columns * header.rows;
  if (bytes.byteLength < from + 7 * cells) throw new Error('The picture came incomplete.');
  return { ...header, heights: new Uint16Array(bytes, from, cells), labels: new Uint16Array(bytes, from + 2 * cells, cells), colours: new Uint8Array(bytes, from + 4 * cells, 3 * cells) };
}

/** Cell at a place in the basin, or undefined outside the picture. */
export function cellAt({ columns, rows, cellMm, leftMm, nearMm }: FieldHeader, xMm: number, yMm: number): number | undefined {
  const [column, row] = [Math.floor((xMm - leftMm) / cellMm), Math.floor((yMm - nearMm) / cellMm)];
  return column < 0 || row < 0 || column >= columns || row >= rows ? undefined : row * columns + column;
}

/** Height over the raft in mm; undefined where nothing was seen. */
export function heightMm(picture: HeightPicture, cell: number | undefined): number | undefined {
  const value = cell === undefined ? 0 : picture.heights[cell] ?? 0;
  return value === 0 ? undefined : picture.heightFromMm + picture.heightStepMm * value;
}
