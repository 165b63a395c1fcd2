import type { BasinLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { CellGrid } from './heightField.ts';
import { inLoops } from './loops/openLoops.ts';
import { visitDisc } from './visitDisc.ts';

/** A planting position in the order in which plants are listed. */
export interface Seed {
  readonly raft: number;
  readonly xMm: number;
  readonly yMm: number;
  /** Size against that of the others (see plantReach): a large plant reaches farther. Only ratios count. */
  readonly reach: number;
}

export const NO_PLANT = -1;

/** Leaves are looked for this far around a planting hole. */
export const HOLE_RADIUS_MM = 14;
/** Share of the disc over the hole that leaves have to cover, at least and against the usual of the raft: a neighbour's leaf covers a part. */
const PRESENT_COVER = 0.3;
const PRESENT_SHARE = 0.65;
/** A cell counts as leaf from this share on, over 3 x 3 cells. */
const LEAF_COVER = 0.4;
/** The way over bare cells costs this much more, and ends after this length: gaps in a leaf, not the way to a neighbour. */
const BARE_COST = 6;
const BARE_WAY_MM = 10;
/** Partly covered cells belong to a leaf no farther than this many cells away. */
const FRINGE = 1.5;
/** Way goes along the leaves' surface: a step of one millimetre up or down counts as this much way across it. Below a high leaf's edge lies another plant's leaf as often as not. */
const STEP_COST = 0.7;

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
  const present = presence(seeds, seeds.map((seed) => discCover(map, grid, seed)));
  const label = new Int16Array(map.cover.length).fill(NO_PLANT), cost = new Float32Array(map.cover.length).fill(Infinity), sources: number[] = [];
  seeds.forEach((seed, index) => {
    if (present[index]) visitDisc(grid, seed, 0.5 * HOLE_RADIUS_MM, (cell) => { label[cell] = index; cost[cell] = 0; sources.push(cell); });
  });
  const meanReach = meanOf(seeds.filter((_, i) => present[i]).map((seed) => seed.reach));
  return { label: spread({ label, cost, sources, slowness: seeds.map((seed) => meanReach / seed.reach) }, map, grid), present };
}

/** Whether something grows at each seed, by how much of its hole is covered. */
function presence(seeds: readonly Seed[], covers: readonly number[]): boolean[] {
  const usual = new Map<number, number>();
  for (const raft of new Set(seeds.map((seed) => seed.raft))) {
    const covered = covers.filter((cover, i) => seeds[i]!.raft === raft && cover >= PRESENT_COVER).sort((a, b) => a - b);
    usual.set(raft, covered[Math.floor(covered.length / 2)] ?? 0);
  }
  return covers.map((cover, i) => cover >= Math.max(PRESENT_COVER, PRESENT_SHARE * usual.get(seeds[i]!.raft)!));
}

interface Flood { readonly label: Int16Array; readonly cost: Float32Array; readonly sources: readonly number[]; readonly slowness: readonly number[] }

/** Takes cell after cell in the order of cost and passes its label on to the eight around it where that is cheaper. */
function spread({ label, cost, sources, slowness }: Flood, { cover, smoothCover, smoothMm }: CoverMap, { columns, cellMm }: CellGrid): Int16Array {
  return inLoops(({ code, put, room, copy }) => {
    const cells = label.length, labelPlace = put(label), bareWay = room(cells * 4);
    const limits = put(Float64Array.of(LEAF_COVER, BARE_COST, BARE_WAY_MM, STEP_COST));
    code.spread(labelPlace, put(cost), bareWay, put(Int32Array.from(sources)), sources.length, put(smoothCover), put(smoothMm), columns, cells, cellMm, put(Float64Array.from(slowness)), limits, room(code.queueBytes()));
    code.trimFringe(labelPlace, put(cover), bareWay, FRINGE * cellMm, cells);
    return copy(Int16Array, labelPlace, cells);
  });
}

/** All planting positions of a basin as seeds; `reach` raft after raft. */
export function seedsOf(layout: BasinLayout, reach: readonly (readonly number[])[]): Seed[] {
  return layout.rafts.flatMap((raft, index) => raft.positions.map(({ xMm, yMm }, position) => ({
    raft: index, xMm: raft.centreMm[0] + xMm, yMm: raft.centreMm[1] + yMm, reach: reach[index]![position]! })));
}

function discCover(map: CoverMap, grid: CellGrid, seed: Seed): number {
  let sum = 0, n = 0;
  visitDisc(grid, seed, HOLE_RADIUS_MM, (cell) => { sum += map.cover[cell]!; n += 1; });
  return n === 0 ? 0 : sum / n;
}

const meanOf = (values: readonly number[]): number => (values.length === 0 ? 1 : values.reduce((sum, value) => sum + value, 0) / values.length);
