import { startBoxSums } from './boxSum.ts';
import type { CellGrid } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

const BLOCK_MM = 10;
/** Bare raft and leaves are looked for this far around. */
const REACH_MM = 45;
/** So many cells make a density. */
const LEAST_CELLS = 20;
/** Leaves cover a place wholly where at least this share of the points around it is coloured. */
const CLOSED = 0.98;

/** Points a cell on one surface that cameras see whole, one number a block of `size` cells a side: place in the loops' memory. */
export interface SurfaceDensity { readonly place: number; readonly size: number; readonly columns: number }

/** Places of points and coloured points a cell, and of their sums over 3 x 3 cells. */
export interface CountPlaces { readonly points: number; readonly coloured: number; readonly allPoints: number; readonly allColoured: number }

/**
 * Points a cell on one surface nearby: bare raft or leaves, whichever has more. Raft in the gaps of a canopy lies half in shadow, and its
 * density says too little of how many points a leaf above it would have. Where nothing is bare nearby, bare raft over the whole basin counts.
 */
export function surfaceDensity(loops: Loops, grid: CellGrid, { points, coloured, allPoints, allColoured }: CountPlaces): SurfaceDensity {
  const size = Math.max(1, Math.round(BLOCK_MM / grid.cellMm));
  const blocks = { columns: Math.ceil(grid.columns / size), rows: Math.ceil(grid.rows / size) }, length = blocks.columns * blocks.rows;
  const [barePoints, bareCells, leafPoints, leafCells] = [0, 0, 0, 0].map(() => loops.room(length * 4)) as [number, number, number, number];
  loops.code.countSurfaces(points, coloured, allPoints, allColoured, grid.columns, grid.rows, size, blocks.columns, CLOSED, barePoints, bareCells, leafPoints, leafCells);
  const radius = Math.max(1, Math.round(REACH_MM / (size * grid.cellMm))), boxSum = startBoxSums(loops, blocks);
  const around = (place: number) => loops.copy(Float32Array, boxSum(place, radius), length);
  const total = (place: number) => loops.view(Float32Array, place, length).reduce((sum, count) => sum + count, 0);
  const usual = total(barePoints) / Math.max(1, total(bareCells)), [raft, raftCells, leaves, leavesCells] = [barePoints, bareCells, leafPoints, leafCells].map(around) as [Float32Array, Float32Array, Float32Array, Float32Array];
  const density = raft.map((sum, block) => Math.max(
    raftCells[block]! > LEAST_CELLS ? sum / raftCells[block]! : usual, leavesCells[block]! > LEAST_CELLS ? leaves[block]! / leavesCells[block]! : 0));
  return { place: loops.put(density), size, columns: blocks.columns };
}
