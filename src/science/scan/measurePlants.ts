import type { BasinLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { Labels } from './floodLabels.ts';
import type { CellGrid, HeightField } from './heightField.ts';
import type { Loops } from './loops/openLoops.ts';

/** What a scan says about one planting position. Of an empty position only `present` is stated; the figures are zero. */
export interface PlantMeasure {
  readonly raft: string | number;
  readonly position: string | number;
  readonly present: boolean;
  /** Seen from above. */
  readonly areaMm2: number;
  /** Between the leaves' upper surface and the raft. */
  readonly volumeMm3: number;
  readonly heightP95Mm: number;
  readonly heightMaxMm: number;
  /** Largest width. */
  readonly diameterMm: number;
  /** Share of the outline that touches another plant, 0 to 1. */
  readonly sharedOutline: number;
  /** Points that lie on the plant. */
  readonly points: number;
}

/** What plants are measured on. */
export interface Ground {
  readonly field: HeightField;
  readonly grid: CellGrid;
  readonly map: CoverMap;
  /** Scatter of single points on bare raft. */
  readonly noiseMm: number;
}

/** Area, volume, heights, width and outline of every plant. */
export function measurePlants(ground: Ground, layout: BasinLayout, { label, present }: Labels): PlantMeasure[] {
  const laid = layDown(ground, label, present.length);
  let index = 0;
  return layout.rafts.flatMap((raft) => raft.positions.map((position): PlantMeasure => {
    const plant = index;
    index += 1;
    const name = { raft: raft.id, position: position.id, present: present[plant]! };
    return present[plant] ? { ...name, ...measureOne(laid, plant) } : { ...name, ...NOTHING };
  }));
}

const NOTHING = { areaMm2: 0, volumeMm3: 0, heightP95Mm: 0, heightMaxMm: 0, diameterMm: 0, sharedOutline: 0, points: 0 };

/** The maps in the memory of the loops that hold the field, and the cells of each plant one behind the other. */
interface LaidGround {
  readonly loops: Loops;
  readonly grid: CellGrid;
  readonly noiseMm: number;
  readonly field: number;
  readonly cover: number;
  readonly heightMm: number;
  readonly smoothCover: number;
  readonly label: number;
  /** Place of all lists, and the first of each plant's in it; one more than there are plants. */
  readonly lists: number;
  readonly starts: Int32Array;
  /** Room for sums, bins of heights, ends along directions. */
  readonly sums: number;
  readonly bins: number;
  readonly directions: number;
  readonly ends: number;
}

function layDown({ field: { loops, place, cells }, grid, map, noiseMm }: Ground, label: Int16Array, plants: number): LaidGround {
  const { code, put, room, copy } = loops;
  const labelPlace = put(label), starts = room((plants + 1) * 4), lists = room(cells * 4);
  code.groupCells(labelPlace, cells, plants, starts, lists);
  return {
    loops, grid, noiseMm, field: place, cover: put(map.cover), heightMm: put(map.heightMm), smoothCover: put(map.smoothCover), label: labelPlace,
    lists, starts: copy(Int32Array, starts, plants + 1), sums: room(SUMS * 8), bins: room(BINS * 8), directions: put(Float64Array.from(DIRECTIONS.flat())), ends: room((DIRECTIONS.length + 1) * 16),
  };
}

/** Sums over the cells of a plant; see plantSums of the loops. */
const SUMS = 7;

function measureOne(laid: LaidGround, plant: number) {
  const { loops, grid, field, cover, heightMm, starts, lists, sums } = laid;
  const list = lists + 4 * starts[plant]!, count = starts[plant + 1]! - starts[plant]!, cellArea = grid.cellMm ** 2;
  loops.code.plantSums(field, cover, heightMm, list, count, sums);
  const [covered, volume, points, weight, sum, squares, noise] = loops.copy(Float64Array, sums, SUMS) as unknown as readonly number[];
  const [heightP95Mm, heightMaxMm] = topHeights(laid, list, count, { weight: weight!, sum: sum!, squares: squares!, noise: noise! * laid.noiseMm ** 2 });
  return { areaMm2: covered! * cellArea, volumeMm3: volume! * cellArea, heightP95Mm, heightMaxMm, ...outline(laid, plant, list, count), points: points! };
}

/** Share of the covered area that lies lower than the height that stands for the top. */
const TOP = 0.95;
const HIGHEST = 0.995;

interface HeightSums { readonly weight: number; readonly sum: number; readonly squares: number; readonly noise: number }

/**
 * The 95 % and highest heights over the covered area. Noise widens the spread of heights and lifts their upper end: the excess over the
 * mean is shrunk by the square root of the true share of the variance, noise being read from bare raft. Where noise makes up much of the
 * variance the shape is no longer known and the shrinking is held back in the same measure.
 */
function topHeights({ loops, cover, heightMm, bins }: LaidGround, list: number, count: number, { weight, sum, squares, noise }: HeightSums): readonly [p95: number, highest: number] {
  if (weight === 0) return [0, 0];
  const mean = sum / weight, variance = squares / weight - mean * mean;
  const real = Math.max(0, 1 - noise / Math.max(1e-9, noise, variance * weight));
  const kept = 1 - real * (1 - Math.sqrt(real));
  loops.code.countHeights(cover, heightMm, list, count, LOWEST_MM, BIN_MM, bins, BINS);
  const below = (share: number) => LOWEST_MM + BIN_MM * loops.code.heightBelow(bins, BINS, share * weight);
  const corrected = (height: number) => mean + kept * (height - mean);
  return [corrected(below(TOP)), corrected(below(HIGHEST))];
}

/** Heights of a plant are counted in bins of a quarter millimetre. */
const BIN_MM = 0.25;
const LOWEST_MM = -30;
const BINS = 4000;

const DIRECTIONS = Array.from({ length: 18 }, (_, k) => [Math.cos((k * Math.PI) / 18), Math.sin((k * Math.PI) / 18)] as const);

/** Largest width over 18 directions, and the share of border cells that have a neighbour of another plant. */
function outline({ loops, label, smoothCover, grid, directions, ends }: LaidGround, plant: number, list: number, count: number): { diameterMm: number; sharedOutline: number } {
  loops.code.outline(label, smoothCover, grid.columns, grid.cellMm, plant, list, count, directions, DIRECTIONS.length, ends);
  const found = loops.copy(Float64Array, ends, 2 * DIRECTIONS.length + 2);
  const [border, shared] = [found.at(-2)!, found.at(-1)!];
  if (border === 0) return { diameterMm: 0, sharedOutline: 0 };
  return { diameterMm: Math.max(...DIRECTIONS.map((_, k) => found[2 * k + 1]! - found[2 * k]!)) + grid.cellMm, sharedOutline: shared / border };
}
