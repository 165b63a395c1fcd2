import type { BasinLayout } from './basinLayout.ts';
import { startBoxSums, type BoxSum } from './boxSum.ts';
import { PER_MM, type CellGrid, type HeightField } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';
import { nearestRafts } from './nearestRafts.ts';
import type { RaftPlane } from './raftPlanes.ts';
import { removeStains } from './removeStains.ts';
import { surfaceDensity } from './surfaceDensity.ts';

/** Per cell: which share of it leaves cover, and how high they stand over the raft there. */
export interface CoverMap {
  /** 0 to 1; of a cell without points, or with more points than one surface can have, from the cells around it. */
  readonly cover: Float32Array;
  /** Mean height of the coloured points over the raft; NaN without one nearby. */
  readonly heightMm: Float32Array;
  /** The same over 3 x 3 cells, by number of points. */
  readonly smoothMm: Float32Array;
  /** Share covered over 3 x 3 cells. */
  readonly smoothCover: Float32Array;
  /** Index of the raft that the cell belongs to. */
  readonly raft: Uint8Array;
  /** Share of cells inside the rafts that hold no point. */
  readonly emptyShare: number;
}

/** A coloured point this far from the others of its cell is a stray. */
const SPIKE_MM = 40;

export function coverMap({ loops, place, cells }: HeightField, grid: CellGrid, layout: BasinLayout, planes: readonly RaftPlane[]): CoverMap {
  const raft = nearestRafts(loops, grid, layout), level = planes.flatMap(({ plane }) => [plane.level, plane.slopeX, plane.slopeY]);
  const [points, coloured, heights] = [loops.room(cells * 4), loops.room(cells * 4), loops.room(cells * 4)];
  loops.code.readCells(place, grid.columns, grid.rows, grid.cellMm, grid.leftMm, grid.nearMm, loops.put(raft), loops.put(Float64Array.from(level)), SPIKE_MM * PER_MM, points, coloured, heights);
  const boxSum = startBoxSums(loops, grid);
  removeStains(loops, grid, boxSum, coloured, heights);
  return { ...spreadOut(loops, grid, boxSum, points, coloured, heights), raft, emptyShare: emptyShareOf(loops, points, grid, layout) };
}

/**
 * Points that one surface can have, over the usual density of one nearby. A camera that looks aslant also sees raft under overhanging
 * leaves; a cell with clearly more points than that has two surfaces, and the leaves on top cover what they can.
 */
const ONE_SURFACE = 1.4;

function spreadOut(loops: Loops, grid: CellGrid, boxSum: BoxSum, points: number, coloured: number, heights: number) {
  const { columns, rows } = grid, cells = columns * rows;
  const allPoints = boxSum(points, 1), allColoured = boxSum(coloured, 1), allHeights = boxSum(heights, 1);
  const density = surfaceDensity(loops, grid, { points, coloured, allPoints, allColoured });
  const [cover, heightMm, smoothMm, smoothCover] = [loops.room(cells * 4), loops.room(cells * 4), loops.room(cells * 4), loops.room(cells * 4)];
  loops.code.coverCells(points, coloured, heights, allPoints, allColoured, allHeights, density.place, columns, rows, density.size, density.columns, ONE_SURFACE, cover, heightMm, smoothMm, smoothCover);
  const read = (place: number) => loops.copy(Float32Array, place, cells);
  return { cover: read(cover), heightMm: read(heightMm), smoothMm: read(smoothMm), smoothCover: read(smoothCover) };
}

function emptyShareOf({ code }: Loops, points: number, grid: CellGrid, layout: BasinLayout): number {
  let empty = 0, all = 0;
  for (const { centreMm, sizeMm } of layout.rafts) {
    const bound = (k: 0 | 1, side: -1 | 1, from: number, most: number) => Math.max(0, Math.min(most, Math.round((centreMm[k] + (side * sizeMm[k]) / 2 - from) / grid.cellMm)));
    const left = bound(0, -1, grid.leftMm, grid.columns), right = bound(0, 1, grid.leftMm, grid.columns), near = bound(1, -1, grid.nearMm, grid.rows), far = bound(1, 1, grid.nearMm, grid.rows);
    all += Math.max(0, right - left) * Math.max(0, far - near);
    empty += code.countEmpty(points, grid.columns, left, right, near, far);
  }
  return empty / Math.max(1, all);
}
