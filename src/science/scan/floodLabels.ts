import type { BasinLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { CellGrid } from './heightField.ts';

/** A planting position in the order in which plants are listed. */
export interface Seed {
  readonly raft: number;
  readonly xMm: number;
  readonly yMm: number;
  /** Radius at the last scan, or 1 for all when there was none: a large plant reaches farther. */
  readonly reach: number;
}

export const NO_PLANT = -1;

/** Leaves are looked for this far around a planting hole. */
export const HOLE_RADIUS_MM = 14;
/** Share of the disc over the hole that leaves have to cover. */
const PRESENT_COVER = 0.3;
/** A cell counts as leaf from this share on, over 3 x 3 cells. */
const LEAF_COVER = 0.4;
/** The way over bare cells costs this much more, and ends after this length: gaps in a leaf, not the way to a neighbour. */
const BARE_COST = 6;
const BARE_WAY_MM = 14;
/** Partly covered cells belong to a leaf no farther than this many cells away. */
const FRINGE = 1.5;
/** Going up a step of one millimetre costs as much as this many millimetres of way: leaf tips droop, and behind a valley stands the neighbour. */
const CLIMB_COST = 0.6;

export interface Labels {
  /** Index of the plant of each cell, or NO_PLANT. */
  readonly label: Int16Array;
  /** Whether anything grows at each seed. */
  readonly present: readonly boolean[];
}

/**
 * Gives each leaf cell to the planting position from which it is reached by the cheapest way over leaves (geodesic distance, divided
 * by the reach of the plant): all positions flood at once. An empty position has no leaf over its hole and floods nothing.
 */
export function floodLabels(map: CoverMap, grid: CellGrid, seeds: readonly Seed[]): Labels {
  const present = seeds.map((seed) => discCover(map, grid, seed) >= PRESENT_COVER);
  const label = new Int16Array(map.cover.length).fill(NO_PLANT);
  const cost = new Float32Array(map.cover.length).fill(Infinity);
  const bareWay = new Float32Array(map.cover.length);
  const queue = new CostQueue(grid.cellMm / 4, map.cover.length);
  const meanReach = meanOf(seeds.filter((_, i) => present[i]).map((seed) => seed.reach));
  const slow = seeds.map((seed) => meanReach / seed.reach);
  seeds.forEach((seed, index) => { if (present[index]) sow(index, seed); });
  for (let cell = queue.take(); cell >= 0; cell = queue.take()) spread(cell);
  for (let cell = 0; cell < label.length; cell += 1) if (map.cover[cell] === 0 || bareWay[cell]! > FRINGE * grid.cellMm) label[cell] = NO_PLANT;
  return { label, present };

  function sow(index: number, seed: Seed): void {
    forDisc(grid, seed, 0.5 * HOLE_RADIUS_MM, (cell) => { label[cell] = index; cost[cell] = 0; queue.put(cell, 0); });
  }

  function spread(cell: number): void {
    const from = cost[cell]!, plant = label[cell]!, factor = slow[plant]!;
    if (queue.isLate(cell, from)) return;
    const column = cell % grid.columns;
    if (column < 1 || column >= grid.columns - 1 || cell < grid.columns || cell >= label.length - grid.columns) return;
    const height = heightOf(cell);
    for (let k = 0; k < 8; k += 1) {
      const next = cell + STEP_ROW[k]! * grid.columns + STEP_COLUMN[k]!;
      const length = STEP_LENGTH[k]! * grid.cellMm;
      const leaf = map.smoothCover[next]! >= LEAF_COVER;
      const way = leaf ? 0 : bareWay[cell]! + length;
      if (way > BARE_WAY_MM) continue;
      const climb = leaf ? Math.max(0, heightOf(next) - height) * CLIMB_COST : 0;
      const reached = from + factor * ((leaf ? length : length * BARE_COST) + climb);
      if (reached >= cost[next]!) continue;
      cost[next] = reached;
      label[next] = plant;
      bareWay[next] = way;
      queue.put(next, reached);
    }
  }

  function heightOf(cell: number): number {
    const height = map.smoothMm[cell]!;
    return height > 0 ? height : 0;
  }
}

const STEP_ROW = [0, 0, 1, -1, 1, 1, -1, -1];
const STEP_COLUMN = [1, -1, 0, 0, 1, -1, 1, -1];
const STEP_LENGTH = [1, 1, 1, 1, Math.SQRT2, Math.SQRT2, Math.SQRT2, Math.SQRT2];

/** All planting positions of a basin as seeds. */
export function seedsOf(layout: BasinLayout, reachOf: (raft: number, position: number) => number | undefined): Seed[] {
  return layout.rafts.flatMap((raft, index) => raft.positions.map(({ xMm, yMm }, position) => ({
    raft: index, xMm: raft.centreMm[0] + xMm, yMm: raft.centreMm[1] + yMm, reach: reachOf(index, position) ?? 1 })));
}

function discCover(map: CoverMap, grid: CellGrid, seed: Seed): number {
  let sum = 0, n = 0;
  forDisc(grid, seed, HOLE_RADIUS_MM, (cell) => { sum += map.cover[cell]!; n += 1; });
  return n === 0 ? 0 : sum / n;
}

function forDisc({ cellMm, leftMm, nearMm, columns, rows }: CellGrid, { xMm, yMm }: Seed, radiusMm: number, act: (cell: number) => void): void {
  const column = (xMm - leftMm) / cellMm, row = (yMm - nearMm) / cellMm, reach = Math.max(0.8, radiusMm / cellMm);
  for (let r = Math.floor(row - reach); r <= row + reach; r += 1) {
    for (let c = Math.floor(column - reach); c <= column + reach; c += 1) {
      if (r < 0 || c < 0 || r >= rows || c >= columns || Math.hypot(r + 0.5 - row, c + 0.5 - column) > reach) continue;
      act(r * columns + c);
    }
  }
}

const meanOf = (values: readonly number[]): number => (values.length === 0 ? 1 : values.reduce((sum, value) => sum + value, 0) / values.length);

/** Cells by cost, in buckets of equal width: cheaper than a heap, and exact enough for ways of many cells. */
class CostQueue {
  private readonly buckets: number[][] = [];
  private at = 0;
  constructor(private readonly width: number, _cells: number) {}

  put(cell: number, cost: number): void {
    const bucket = Math.floor(cost / this.width);
    (this.buckets[bucket] ??= []).push(cell);
  }

  /** The next cell of the cheapest bucket; -1 when none is left. */
  take(): number {
    while (this.at < this.buckets.length) {
      const cell = this.buckets[this.at]?.pop();
      if (cell !== undefined) return cell;
      this.at += 1;
    }
    return -1;
  }

  /** A cell that was reached more cheaply since it was put here. */
  isLate(_cell: number, cost: number): boolean {
    return Math.floor(cost / this.width) < this.at;
  }
}
