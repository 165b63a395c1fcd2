import type { BasinLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { Labels } from './floodLabels.ts';
import { COLOURED, FIELD_STRIDE, type CellGrid, type HeightField } from './heightField.ts';

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
  const cellsOf = groupCells(label, present.length);
  let index = 0;
  return layout.rafts.flatMap((raft) => raft.positions.map((position): PlantMeasure => {
    const plant = index;
    index += 1;
    const cells = cellsOf[plant]!;
    const name = { raft: raft.id, position: position.id, present: present[plant]! };
    return present[plant] ? { ...name, ...measureCells(ground, label, plant, cells) } : { ...name, ...NOTHING };
  }));
}

const NOTHING = { areaMm2: 0, volumeMm3: 0, heightP95Mm: 0, heightMaxMm: 0, diameterMm: 0, sharedOutline: 0, points: 0 };

function groupCells(label: Int16Array, plants: number): Int32Array[] {
  const counts = new Int32Array(plants);
  for (const plant of label) if (plant >= 0) counts[plant]! += 1;
  const groups = Array.from(counts, (count) => new Int32Array(count));
  counts.fill(0);
  for (let cell = 0; cell < label.length; cell += 1) {
    const plant = label[cell]!;
    if (plant < 0) continue;
    groups[plant]![counts[plant]!] = cell;
    counts[plant]! += 1;
  }
  return groups;
}

function measureCells({ field, grid, map, noiseMm }: Ground, label: Int16Array, plant: number, cells: Int32Array) {
  const cellArea = grid.cellMm ** 2;
  let covered = 0, volume = 0, points = 0;
  for (const cell of cells) {
    const share = map.cover[cell]!;
    covered += share;
    volume += share * Math.max(0, map.heightMm[cell]!);
    points += field[cell * FIELD_STRIDE + COLOURED]!;
  }
  const [heightP95Mm, heightMaxMm] = topHeights(field, map, cells, noiseMm);
  return { areaMm2: covered * cellArea, volumeMm3: volume * cellArea, heightP95Mm, heightMaxMm, ...outline(grid, map, label, plant, cells), points };
}

/** Share of the covered area that lies lower than the height that stands for the top. */
const TOP = 0.95;
const HIGHEST = 0.995;

/**
 * The 95 % and highest heights over the covered area. Noise widens the spread of heights and lifts their upper end: the excess over the
 * mean is shrunk by the square root of the true share of the variance, noise being read from bare raft. Where noise makes up much of the
 * variance the shape is no longer known and the shrinking is held back in the same measure.
 */
function topHeights(field: HeightField, map: CoverMap, cells: Int32Array, noiseMm: number): readonly [p95: number, highest: number] {
  let weight = 0, sum = 0, squares = 0, noise = 0;
  for (const cell of cells) {
    const w = map.cover[cell]!, height = map.heightMm[cell]!;
    if (!(w > 0)) continue;
    weight += w; sum += w * height; squares += w * height * height;
    noise += (w * noiseMm * noiseMm) / Math.max(1, field[cell * FIELD_STRIDE + COLOURED]!);
  }
  if (weight === 0) return [0, 0];
  const mean = sum / weight, variance = squares / weight - mean * mean;
  const real = Math.max(0, 1 - noise / Math.max(1e-9, noise, variance * weight));
  const kept = 1 - real * (1 - Math.sqrt(real));
  const bins = new Float64Array(BINS);
  for (const cell of cells) if (map.cover[cell]! > 0) bins[Math.max(0, Math.min(BINS - 1, Math.floor((map.heightMm[cell]! - LOWEST_MM) / BIN_MM)))]! += map.cover[cell]!;
  const corrected = (height: number) => mean + kept * (height - mean);
  return [corrected(heightBelow(bins, TOP * weight)), corrected(heightBelow(bins, HIGHEST * weight))];
}

/** Heights of a plant are counted in bins of a quarter millimetre. */
const BIN_MM = 0.25;
const LOWEST_MM = -30;
const BINS = 4000;

/** The height under which this much of the covered area lies. */
function heightBelow(bins: Float64Array, weight: number): number {
  let passed = 0;
  for (let bin = 0; bin < BINS; bin += 1) {
    const here = bins[bin]!;
    if (passed + here >= weight) return LOWEST_MM + (bin + (weight - passed) / here) * BIN_MM;
    passed += here;
  }
  return LOWEST_MM;
}

const DIRECTIONS = Array.from({ length: 18 }, (_, k) => [Math.cos((k * Math.PI) / 18), Math.sin((k * Math.PI) / 18)] as const);

/** Largest width over 18 directions, and the share of border cells that have a neighbour of another plant. */
function outline(grid: CellGrid, map: CoverMap, label: Int16Array, plant: number, cells: Int32Array): { diameterMm: number; sharedOutline: number } {
  const low = new Float64Array(DIRECTIONS.length).fill(Infinity), high = new Float64Array(DIRECTIONS.length).fill(-Infinity);
  let border = 0, shared = 0;
  for (const cell of cells) {
    if (map.smoothCover[cell]! < 0.5) continue;
    let touching = 0, outside = 0;
    for (let k = 0; k < 4; k += 1) {
      const next = cell + (k < 2 ? 2 * k - 1 : (2 * k - 5) * grid.columns), other = map.smoothCover[next]! >= 0.5 ? label[next]! : -1;
      if (other === plant) continue;
      outside += 1;
      if (other >= 0) touching = 1;
    }
    if (outside === 0) continue;
    border += 1;
    shared += touching;
    const x = (cell % grid.columns) * grid.cellMm, y = Math.floor(cell / grid.columns) * grid.cellMm;
    for (let k = 0; k < DIRECTIONS.length; k += 1) {
      const along = DIRECTIONS[k]![0] * x + DIRECTIONS[k]![1] * y;
      if (along < low[k]!) low[k] = along;
      if (along > high[k]!) high[k] = along;
    }
  }
  if (border === 0) return { diameterMm: 0, sharedOutline: 0 };
  return { diameterMm: Math.max(...high.map((value, k) => value - low[k]!)) + grid.cellMm, sharedOutline: shared / border };
}
