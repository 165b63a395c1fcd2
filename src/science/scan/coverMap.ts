import type { BasinLayout } from './basinLayout.ts';
import { boxSum } from './boxSum.ts';
import { COLOURED, COLOURED_LOW, COLOURED_SUM, COLOURED_TOP, FIELD_STRIDE, PER_MM, POINTS, type CellGrid, type HeightField } from './heightField.ts';
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
  /** Index of the raft that the cell belongs to: the one whose edge is nearest. */
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
  for (let cell = 0; cell < cells; cell += 1) readCell(field, grid, planes[raft[cell]!]!, cell, points, coloured, heights);
  removeStains(grid, coloured, heights);
  return { ...spreadOut(grid, points, coloured, heights, bareDensity(grid, points, coloured)), raft, emptyShare: emptyShareOf(points, raft, grid, layout) };
}

/** Counts and sum of heights over the raft, less a stray. */
function readCell(field: HeightField, grid: CellGrid, { plane }: RaftPlane, cell: number, points: Float32Array, coloured: Float32Array, heights: Float32Array): void {
  const at = cell * FIELD_STRIDE;
  points[cell] = field[at + POINTS]!;
  let n = field[at + COLOURED]!;
  if (n === 0) return;
  let sum = field[at + COLOURED_SUM]!;
  const top = field[at + COLOURED_TOP]!, low = field[at + COLOURED_LOW]!;
  if (n > 2 && top - (sum - top) / (n - 1) > SPIKE_MM * PER_MM) { sum -= top; n -= 1; }
  if (n > 2 && (sum - low) / (n - 1) - low > SPIKE_MM * PER_MM) { sum -= low; n -= 1; }
  const column = cell % grid.columns, row = (cell - column) / grid.columns;
  const base = plane.level + plane.slopeX * (grid.leftMm + (column + 0.5) * grid.cellMm) + plane.slopeY * (grid.nearMm + (row + 0.5) * grid.cellMm);
  coloured[cell] = n;
  heights[cell] = sum / PER_MM - n * base;
}

function spreadOut(grid: CellGrid, points: Float32Array, coloured: Float32Array, heights: Float32Array, density: Float32Array) {
  const allPoints = boxSum(points, grid, 1), allColoured = boxSum(coloured, grid, 1), allHeights = boxSum(heights, grid, 1);
  const cells = points.length;
  const cover = new Float32Array(cells), heightMm = new Float32Array(cells), smoothMm = new Float32Array(cells), smoothCover = new Float32Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    const seen = seenFromAbove(allPoints[cell]!, allColoured[cell]!, 9 * 1.25 * density[cell]!);
    const around = seen > 0 ? allColoured[cell]! / seen : 0;
    const mean = allColoured[cell]! > 0 ? allHeights[cell]! / allColoured[cell]! : NaN;
    smoothCover[cell] = around;
    smoothMm[cell] = mean;
    cover[cell] = points[cell]! > 0 && seen === allPoints[cell]! ? coloured[cell]! / points[cell]! : around;
    heightMm[cell] = coloured[cell]! > 0 ? heights[cell]! / coloured[cell]! : mean;
  }
  return { cover, heightMm, smoothMm, smoothCover };
}

/**
 * Points that would be seen from straight above: a camera that looks aslant sees raft under overhanging leaves, so that there are more
 * points than a single surface can have. What exceeds the density of bare raft nearby is taken off, but never leaves.
 */
const seenFromAbove = (points: number, coloured: number, single: number): number => Math.max(coloured, Math.min(points, single));

/** Points a cell on bare raft nearby; over the whole basin where nothing is bare. */
function bareDensity(grid: CellGrid, points: Float32Array, coloured: Float32Array): Float32Array {
  const radius = Math.round(45 / grid.cellMm);
  const bare = points.map((count, cell) => (coloured[cell] === 0 ? count : 0));
  const around = boxSum(bare, grid, 1);
  const isBare = Float32Array.from(bare, (_, cell) => Number(coloured[cell] === 0 && around[cell]! > 0));
  const sum = boxSum(bare, grid, radius), cells = boxSum(isBare, grid, radius);
  let all = 0, allCells = 0;
  for (let cell = 0; cell < bare.length; cell += 1) { all += bare[cell]!; allCells += isBare[cell]!; }
  const usual = all / Math.max(1, allCells);
  return sum.map((total, cell) => (cells[cell]! > 20 ? total / cells[cell]! : usual));
}

/** Which raft each cell belongs to: the one whose outline is nearest. */
function nearestRafts(grid: CellGrid, { rafts }: BasinLayout): Uint8Array {
  const { columns, rows, cellMm, leftMm, nearMm } = grid;
  const nearest = new Uint8Array(columns * rows);
  const offX = rafts.map((raft) => Float32Array.from({ length: columns }, (_, column) => Math.max(0, Math.abs(leftMm + (column + 0.5) * cellMm - raft.centreMm[0]) - raft.sizeMm[0] / 2)));
  for (let row = 0; row < rows; row += 1) {
    const offY = rafts.map((raft) => Math.max(0, Math.abs(nearMm + (row + 0.5) * cellMm - raft.centreMm[1]) - raft.sizeMm[1] / 2));
    for (let column = 0; column < columns; column += 1) {
      let best = 0, least = Infinity;
      for (let k = 0; k < rafts.length; k += 1) {
        const dx = offX[k]![column]!, dy = offY[k]!, off = dx * dx + dy * dy;
        if (off < least) { least = off; best = k; }
      }
      nearest[row * columns + column] = best;
    }
  }
  return nearest;
}

function emptyShareOf(points: Float32Array, raft: Uint8Array, grid: CellGrid, layout: BasinLayout): number {
  let empty = 0, all = 0;
  for (let cell = 0; cell < points.length; cell += 1) {
    const { centreMm, sizeMm } = layout.rafts[raft[cell]!]!;
    const column = cell % grid.columns, row = (cell - column) / grid.columns;
    if (Math.abs(grid.leftMm + (column + 0.5) * grid.cellMm - centreMm[0]) > sizeMm[0] / 2) continue;
    if (Math.abs(grid.nearMm + (row + 0.5) * grid.cellMm - centreMm[1]) > sizeMm[1] / 2) continue;
    all += 1;
    if (points[cell] === 0) empty += 1;
  }
  return empty / Math.max(1, all);
}
