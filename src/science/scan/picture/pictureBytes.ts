import type { Labels } from '../floodLabels.ts';
import { COLOUR_STRIDE, type CellColours } from './cellColours.ts';

/** Heights of a picture begin here and go up in tenths of a millimetre; 0 stands for a cell in which nothing was seen. */
const HEIGHT_FROM_MM = -100;
const HEIGHT_STEP_MM = 0.1;

/** The picture of a basin as it is kept and sent: a header, then heights (uint16), labels (uint16), colours (3 bytes), cell by cell. */
export function pictureBytes({ grid, sums }: CellColours, { label }: Labels, coloured: boolean): Uint8Array {
  const cells = grid.columns * grid.rows;
  const { columns, rows, cellMm, leftMm, nearMm } = grid;
  const head = headerBytes({ columns, rows, cellMm, leftMm, nearMm, heightFromMm: HEIGHT_FROM_MM - HEIGHT_STEP_MM, heightStepMm: HEIGHT_STEP_MM, coloured });
  const bytes = new Uint8Array(head.length + cells * 7);
  bytes.set(head);
  const heights = new Uint16Array(bytes.buffer, head.length, cells), labels = new Uint16Array(bytes.buffer, head.length + cells * 2, cells);
  const colours = bytes.subarray(head.length + cells * 4);
  for (let cell = 0; cell < cells; cell += 1) {
    // Leaves lie over what is below them: where there are any, they are what is seen.
    const at = cell * COLOUR_STRIDE + (sums[cell * COLOUR_STRIDE]! > 0 ? 0 : 5), points = sums[at]!;
    labels[cell] = label[cell]! + 1;
    if (points === 0) continue;
    heights[cell] = Math.max(1, Math.min(65_535, Math.round((sums[at + 1]! / points - HEIGHT_FROM_MM) / HEIGHT_STEP_MM) + 1));
    for (let k = 0; k < 3; k += 1) colours[cell * 3 + k] = Math.round(sums[at + 2 + k]! / points);
  }
  return bytes;
}

/** Length (uint32, little-endian) and JSON, padded with blanks so that what follows begins at a multiple of four. */
export function headerBytes(header: Readonly<Record<string, unknown>>): Uint8Array {
  const text = JSON.stringify(header), length = Math.ceil(text.length / 4) * 4;
  const bytes = new Uint8Array(4 + length).fill(32);
  new DataView(bytes.buffer).setUint32(0, length, true);
  bytes.set(new TextEncoder().encode(text), 4);
  return bytes;
}
