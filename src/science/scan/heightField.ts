import type { BasinLayout } from './basinLayout.ts';
import { closeLoops, openLoops, type Loops } from './loops/openLoops.ts';
import type { Piece } from './piece.ts';
import type { Transform } from './rigidTransform.ts';

/** A grid of square cells over a basin, x to the right along columns, y away along rows. */
export interface CellGrid {
  readonly columns: number;
  readonly rows: number;
  readonly cellMm: number;
  /** Outer corner of cell (0, 0). */
  readonly leftMm: number;
  readonly nearMm: number;
}

/**
 * What the points say about each cell: FIELD_STRIDE whole numbers a cell. Heights in 1/16 mm over the basin's level zero. Sums over
 * coloured points (plants and stains) and over neutral ones apart; the highest and lowest coloured point so that a stray can be left out.
 * The numbers lie in the memory of the loops that fill them.
 */
export interface HeightField {
  readonly loops: Loops;
  readonly place: number;
  readonly cells: number;
}

const FIELD_STRIDE = 5;
/** Height units in a millimetre. */
export const PER_MM = 16;

/** Points outside these heights over the rafts are strays: below the water, or above any crop on rafts. */
const LOWEST_MM = -80;
const HIGHEST_MM = 900;
/** Leaves hang over the rim. */
const OVERHANG_MM = 70;

export function gridOver(layout: BasinLayout, cellMm: number): CellGrid {
  const [x, y] = layout.innerMm.map((inner) => inner / 2 + OVERHANG_MM) as [number, number];
  return { columns: Math.ceil((2 * x) / cellMm), rows: Math.ceil((2 * y) / cellMm), cellMm, leftMm: -x, nearMm: -y };
}

/** Bytes of a cell with all that a scan lays down of it: the field apart, about twenty maps of 32-bit numbers. */
const BYTES_A_CELL = 100;

/** Bytes of the numbers of a field. */
export const fieldBytes = ({ columns, rows }: CellGrid): number => columns * rows * FIELD_STRIDE * 4;

/** A field without points. Close it when it has been measured. */
export function emptyField(grid: CellGrid): HeightField {
  const cells = grid.columns * grid.rows, loops = openLoops(cells * BYTES_A_CELL);
  return { loops, cells, place: loops.room(fieldBytes(grid)) };
}

/** Ends the use of a field and gives its memory to the next. */
export const closeField = ({ loops }: HeightField): void => closeLoops(loops);

/** The numbers of a field; valid until its loops make more room. */
export const fieldNumbers = ({ loops, place, cells }: HeightField): Int32Array => loops.view(Int32Array, place, cells * FIELD_STRIDE);

/** How a point is told to be plant-coloured: saturation (HSV) above a share; without colours, height above a level. */
export interface PlantColour { readonly saturation: number; readonly heightMm: number }

/** Adds the first `count` points of a piece to the field; returns how many lay inside. */
export type AddPoints = (count: number) => number;

/** What adds points of `piece`, which lies in the same loops as the field. */
export function startAdding({ loops, place }: HeightField, grid: CellGrid, piece: Piece, toBasin: Transform, colour: PlantColour): AddPoints {
  const transform = loops.put(Float64Array.from(inCells(toBasin, grid)));
  const [x, y, z, red, green, blue] = piece.places;
  const keep = Math.round((1 - colour.saturation) * 256), above = colour.heightMm * PER_MM;
  return (count) => loops.code.addPoints(x, y, z, red, green, blue, count, place, grid.columns, grid.rows, transform, LOWEST_MM * PER_MM, HIGHEST_MM * PER_MM, keep, above);
}

/** The transform to cells and height units. */
function inCells(m: Transform, { cellMm, leftMm, nearMm }: CellGrid): Transform {
  const c = 1 / cellMm;
  return [m[0] * c, m[1] * c, m[2] * c, (m[3] - leftMm) * c, m[4] * c, m[5] * c, m[6] * c, (m[7] - nearMm) * c, m[8] * PER_MM, m[9] * PER_MM, m[10] * PER_MM, m[11] * PER_MM];
}

/** Adds the numbers of another field of the same grid. */
export const mergeField = ({ loops, place, cells }: HeightField, numbers: Int32Array): void => loops.code.mergeField(place, loops.put(numbers), cells);
