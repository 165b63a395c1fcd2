import type { BasinLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { Labels } from './floodLabels.ts';
import { COLOURED, FIELD_STRIDE, type CellGrid, type HeightField } from './heightField.ts';
import { quantileOf, quantileOfSorted } from './quantile.ts';

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

/** Area, volume, heights, width and outline of every plant. */
export function measurePlants(field: HeightField, grid: CellGrid, map: CoverMap, layout: BasinLayout, { label, present }: Labels): PlantMeasure[] {
  const cellsOf = groupCells(label, present.length);
  let index = 0;
  return layout.rafts.flatMap((raft) => raft.positions.map((position): PlantMeasure => {
    const plant = index;
    index += 1;
    const cells = cellsOf[plant]!;
    const name = { raft: raft.id, position: position.id, present: present[plant]! };
    return present[plant] ? { ...name, ...measureCells(field, grid, map, label, plant, cells) } : { ...name, ...NOTHING };
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

function measureCells(field: HeightField, grid: CellGrid, map: CoverMap, label: Int16Array, plant: number, cells: Int32Array) {
  const cellArea = grid.cellMm ** 2;
  let covered = 0, volume = 0, points = 0;
  const heights = new Float32Array(cells.length);
  let tall = 0;
  for (const cell of cells) {
    const share = map.cover[cell]!;
    covered += share;
    volume += share * Math.max(0, map.heightMm[cell]!);
    points += field[cell * FIELD_STRIDE + COLOURED]!;
    if (map.smoothCover[cell]! >= 0.5) { heights[tall] = map.smoothMm[cell]!; tall += 1; }
  }
  const surface = heights.subarray(0, tall);
  const heightP95Mm = tall === 0 ? 0 : quantileOf(surface, 0.95);
  return {
    areaMm2: covered * cellArea, volumeMm3: volume * cellArea, heightP95Mm, heightMaxMm: tall === 0 ? 0 : quantileOfSorted(surface, 0.999),
    ...outline(grid, map, label, plant, cells), points,
  };
}

const DIRECTIONS = Array.from({ length: 18 }, (_, k) => [Math.cos((k * Math.PI) / 18), Math.sin((k * Math.PI) / 18)] as const);

/** Largest width over 18 directions, and the share of border cells that have a neighbour of another plant. */
function outline(grid: CellGrid, map: CoverMap, label: Int16Array, plant: number, cells: Int32Array): { diameterMm: number; sharedOutline: number } {
  const low = new Float64Array(DIRECTIONS.length).fill(Infinity), high = new Float64Array(DIRECTIONS.length).fill(-Infinity);
  let border = 0, shared = 0;
  for (const cell of cells) {
    if (map.smoothCover[cell]! < 0.5) continue;
    const neighbours = [cell - 1, cell + 1, cell - grid.columns, cell + grid.columns];
    if (neighbours.every((next) => label[next] === plant && map.smoothCover[next]! >= 0.5)) continue;
    border += 1;
    if (neighbours.some((next) => (label[next] ?? -1) >= 0 && label[next] !== plant && map.smoothCover[next]! >= 0.5)) shared += 1;
    const x = (cell % grid.columns) * grid.cellMm, y = Math.floor(cell / grid.columns) * grid.cellMm;
    DIRECTIONS.forEach(([c, s], k) => {
      const along = c * x + s * y;
      if (along < low[k]!) low[k] = along;
      if (along > high[k]!) high[k] = along;
    });
  }
  if (border === 0) return { diameterMm: 0, sharedOutline: 0 };
  return { diameterMm: Math.max(...high.map((value, k) => value - low[k]!)) + grid.cellMm, sharedOutline: shared / border };
}
