import type { BasinLayout } from './basinLayout.ts';
import type { PointCloud } from './pointCloud.ts';
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
 */
export type HeightField = Int32Array;

export const FIELD_STRIDE = 6;
export const POINTS = 0;
export const COLOURED = 1;
export const COLOURED_SUM = 2;
export const COLOURED_TOP = 3;
export const COLOURED_LOW = 4;
export const NEUTRAL_SUM = 5;
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

export const emptyField = (grid: CellGrid, shared = false): HeightField => {
  const length = grid.columns * grid.rows * FIELD_STRIDE;
  return shared ? new Int32Array(new SharedArrayBuffer(length * 4)) : new Int32Array(length);
};

/** How a point is told to be plant-coloured: saturation (HSV) above a share; without colours, height above a level. */
export interface PlantColour { readonly saturation: number; readonly heightMm: number }

/** Adds points to the field. Returns how many lay inside. The one loop that sees every point. */
export function addPoints(field: HeightField, grid: CellGrid, cloud: PointCloud, toBasin: Transform, colour: PlantColour): number {
  const { x, y, z, red, green, blue, count } = cloud;
  const { columns, rows } = grid;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8, m9, m10, m11] = inCells(toBasin, grid);
  const low = LOWEST_MM * PER_MM, high = HIGHEST_MM * PER_MM;
  const keep = Math.round((1 - colour.saturation) * 256), above = colour.heightMm * PER_MM;
  let inside = 0;
  for (let i = 0; i < count; i += 1) {
    const px = x[i]!, py = y[i]!, pz = z[i]!;
    const cx = m0 * px + m1 * py + m2 * pz + m3;
    const cy = m4 * px + m5 * py + m6 * pz + m7;
    if (!(cx >= 0 && cy >= 0 && cx < columns && cy < rows)) continue;
    const height = (m8 * px + m9 * py + m10 * pz + m11) | 0;
    if (height < low || height > high) continue;
    const at = ((cy | 0) * columns + (cx | 0)) * FIELD_STRIDE;
    inside += 1;
    field[at + POINTS]! += 1;
    let coloured: boolean;
    if (red !== undefined && green !== undefined && blue !== undefined) {
      const r = red[i]!, g = green[i]!, b = blue[i]!;
      const most = r > g ? (r > b ? r : b) : g > b ? g : b, least = r < g ? (r < b ? r : b) : g < b ? g : b;
      coloured = least * 256 < keep * most;
    } else coloured = height > above;
    if (!coloured) { field[at + NEUTRAL_SUM]! += height; continue; }
    const before = field[at + COLOURED]!;
    if (before === 0) { field[at + COLOURED_TOP] = height; field[at + COLOURED_LOW] = height; }
    else if (height > field[at + COLOURED_TOP]!) field[at + COLOURED_TOP] = height;
    else if (height < field[at + COLOURED_LOW]!) field[at + COLOURED_LOW] = height;
    field[at + COLOURED] = before + 1;
    field[at + COLOURED_SUM]! += height;
  }
  return inside;
}

/** The transform to cells and height units. */
function inCells(m: Transform, { cellMm, leftMm, nearMm }: CellGrid): Transform {
  const c = 1 / cellMm;
  return [m[0] * c, m[1] * c, m[2] * c, (m[3] - leftMm) * c, m[4] * c, m[5] * c, m[6] * c, (m[7] - nearMm) * c, m[8] * PER_MM, m[9] * PER_MM, m[10] * PER_MM, m[11] * PER_MM];
}

/** Adds one field to another of the same grid. */
export function mergeField(into: HeightField, from: HeightField): void {
  for (let at = 0; at < into.length; at += FIELD_STRIDE) {
    if (from[at + POINTS] === 0) continue;
    if (from[at + COLOURED]! > 0) {
      const first = into[at + COLOURED] === 0;
      if (first || from[at + COLOURED_TOP]! > into[at + COLOURED_TOP]!) into[at + COLOURED_TOP] = from[at + COLOURED_TOP]!;
      if (first || from[at + COLOURED_LOW]! < into[at + COLOURED_LOW]!) into[at + COLOURED_LOW] = from[at + COLOURED_LOW]!;
      into[at + COLOURED]! += from[at + COLOURED]!;
      into[at + COLOURED_SUM]! += from[at + COLOURED_SUM]!;
    }
    into[at + POINTS]! += from[at + POINTS]!;
    into[at + NEUTRAL_SUM]! += from[at + NEUTRAL_SUM]!;
  }
}
