import type { CellGrid } from '../heightField.ts';
import type { PointCloud } from '../pointCloud.ts';
import type { Transform } from '../rigidTransform.ts';

/** What a picture of the basin needs of each cell: STRIDE sums a cell, of plant-coloured points and of the others apart. */
export interface CellColours {
  readonly grid: CellGrid;
  readonly toBasin: Transform;
  /** Saturation (HSV) from which a point counts as plant-coloured. */
  readonly saturation: number;
  /** For each cell: points, sum of heights in mm over level rafts, sums of red, green, blue; plant-coloured first, then the others. */
  readonly sums: Float32Array;
}

export const COLOUR_STRIDE = 10;
/** Outside these heights nothing of a basin is. */
const LOWEST_MM = -80;
const HIGHEST_MM = 900;

export const emptyColours = (grid: CellGrid, toBasin: Transform, saturation: number): CellColours =>
  ({ grid, toBasin, saturation, sums: new Float32Array(grid.columns * grid.rows * COLOUR_STRIDE) });

/** A point as a picture sees it: its cell, its place in the basin's frame in mm, its colour (0 to 255 each, 0 where the cloud has none). */
export type SeePoint = (cell: number, coloured: boolean, xMm: number, yMm: number, zMm: number, red: number, green: number, blue: number) => void;

/** Adds the points of a piece; `see` hears of every point that lies in the basin, in file order. */
export function addColours({ grid, toBasin: m, saturation, sums }: CellColours, cloud: PointCloud, see: SeePoint): void {
  const { x, y, z, red, green, blue, count } = cloud;
  const { columns, rows, cellMm, leftMm, nearMm } = grid;
  for (let i = 0; i < count; i += 1) {
    const px = x[i]!, py = y[i]!, pz = z[i]!;
    const xMm = m[0] * px + m[1] * py + m[2] * pz + m[3], yMm = m[4] * px + m[5] * py + m[6] * pz + m[7], zMm = m[8] * px + m[9] * py + m[10] * pz + m[11];
    const column = Math.floor((xMm - leftMm) / cellMm), row = Math.floor((yMm - nearMm) / cellMm);
    if (!(column >= 0 && row >= 0 && column < columns && row < rows && zMm >= LOWEST_MM && zMm <= HIGHEST_MM)) continue;
    const r = red === undefined ? 0 : red[i]!, g = green === undefined ? 0 : green[i]!, b = blue === undefined ? 0 : blue[i]!;
    const most = Math.max(r, g, b), coloured = Math.min(r, g, b) < (1 - saturation) * most;
    const cell = row * columns + column, at = cell * COLOUR_STRIDE + (coloured ? 0 : 5);
    sums[at]! += 1; sums[at + 1]! += zMm; sums[at + 2]! += r; sums[at + 3]! += g; sums[at + 4]! += b;
    see(cell, coloured, xMm, yMm, zMm, r, g, b);
  }
}
