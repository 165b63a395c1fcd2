import { bareDensity } from './bareDensity.ts';
import type { BasinLayout } from './basinLayout.ts';
import { boxSum } from './boxSum.ts';
import { COLOURED, COLOURED_LOW, COLOURED_SUM, COLOURED_TOP, FIELD_STRIDE, PER_MM, POINTS, type CellGrid, type HeightField } from './heightField.ts';
import { nearestRafts } from './nearestRafts.ts';
import type { RaftPlane } from './raftPlanes.ts';
import { removeStains } from './removeStains.ts';

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

export function coverMap(field: HeightField, grid: CellGrid, layout: BasinLayout, planes: readonly RaftPlane[]): CoverMap {
  const cells = grid.columns * grid.rows;
  const raft = nearestRafts(grid, layout);
  const points = new Float32Array(cells), coloured = new Float32Array(cells), heights = new Float32Array(cells);
  readCells(field, grid, raft, planes, points, coloured, heights);
  removeStains(grid, coloured, heights);
  return { ...spreadOut(grid, points, coloured, heights), raft, emptyShare: emptyShareOf(points, grid, layout) };
}

/** Counts and sums of heights over the raft, less strays. */
function readCells(field: HeightField, grid: CellGrid, raft: Uint8Array, planes: readonly RaftPlane[], points: Float32Array, coloured: Float32Array, heights: Float32Array): void {
  const spike = SPIKE_MM * PER_MM;
  for (let row = 0, cell = 0; row < grid.rows; row += 1) {
    const y = grid.nearMm + (row + 0.5) * grid.cellMm;
    for (let column = 0; column < grid.columns; column += 1, cell += 1) {
      const at = cell * FIELD_STRIDE;
      points[cell] = field[at + POINTS]!;
      let n = field[at + COLOURED]!;
      if (n === 0) continue;
      let sum = field[at + COLOURED_SUM]!;
      const top = field[at + COLOURED_TOP]!, low = field[at + COLOURED_LOW]!;
      if (n > 2 && top * n - sum > spike * (n - 1)) { sum -= top; n -= 1; }
      if (n > 2 && sum - low * n > spike * (n - 1)) { sum -= low; n -= 1; }
      const { plane } = planes[raft[cell]!]!;
      coloured[cell] = n;
      heights[cell] = sum / PER_MM - n * (plane.level + plane.slopeX * (grid.leftMm + (column + 0.5) * grid.cellMm) + plane.slopeY * y);
    }
  }
}

/**
 * Points that one surface can have, over the density of bare raft nearby. A camera that looks aslant also sees raft under overhanging
 * leaves; a cell with clearly more points than that has two surfaces, and the leaves on top cover what they can.
 */
const ONE_SURFACE = 1.4;

function spreadOut(grid: CellGrid, points: Float32Array, coloured: Float32Array, heights: Float32Array) {
  const allPoints = boxSum(points, grid, 1), allColoured = boxSum(coloured, grid, 1), allHeights = boxSum(heights, grid, 1);
  const density = bareDensity(grid, points, coloured, allPoints);
  const cells = points.length;
  const cover = new Float32Array(cells), heightMm = new Float32Array(cells).fill(NaN), smoothMm = new Float32Array(cells).fill(NaN), smoothCover = new Float32Array(cells);
  for (let row = 0, cell = 0; row < grid.rows; row += 1) {
    for (let column = 0; column < grid.columns; column += 1, cell += 1) {
      const leaves = allColoured[cell]!;
      if (leaves <= 0) continue;
      const seen = allPoints[cell]!, single = 9 * ONE_SURFACE * density.at(row, column);
      const onTop = seen <= single ? seen : Math.max(leaves, single);
      const around = leaves / onTop, n = coloured[cell]!, mean = allHeights[cell]! / leaves;
      smoothCover[cell] = around;
      smoothMm[cell] = mean;
      cover[cell] = points[cell]! > 0 && onTop === seen ? n / points[cell]! : around;
      heightMm[cell] = n > 0 ? heights[cell]! / n : mean;
    }
  }
  return { cover, heightMm, smoothMm, smoothCover };
}

function emptyShareOf(points: Float32Array, grid: CellGrid, layout: BasinLayout): number {
  let empty = 0, all = 0;
  for (const { centreMm, sizeMm } of layout.rafts) {
    const bound = (k: 0 | 1, side: -1 | 1, from: number, most: number) => Math.max(0, Math.min(most, Math.round((centreMm[k] + (side * sizeMm[k]) / 2 - from) / grid.cellMm)));
    const right = bound(0, 1, grid.leftMm, grid.columns), far = bound(1, 1, grid.nearMm, grid.rows);
    for (let row = bound(1, -1, grid.nearMm, grid.rows); row < far; row += 1) {
      for (let column = bound(0, -1, grid.leftMm, grid.columns); column < right; column += 1) {
        all += 1;
        if (points[row * grid.columns + column] === 0) empty += 1;
      }
    }
  }
  return empty / Math.max(1, all);
}
