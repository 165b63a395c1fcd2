import type { BasinLayout, RaftLayout } from './basinLayout.ts';
import type { CoverMap } from './coverMap.ts';
import type { CellGrid } from './heightField.ts';
import type { EarlierPlant } from './readPreviousScan.ts';
import { visitDisc } from './visitDisc.ts';

/** By height no plant counts as more than this much larger or smaller than the middle one of its raft: leaves of neighbours mix in. */
const LARGEST = 1.35;
/** Both tell of size with an error of their own: powers of the radius at an earlier scan and of the height today, where both are known. */
const EARLIER_POWER = 0.7;
const HEIGHT_POWER = 0.5;

/**
 * How far each plant's leaves reach, raft after raft; only ratios mean anything. Plants of one age and kind differ in size more than in
 * shape, so a plant that is taller than the middle one of its raft reaches as much farther; the middle one as far as a circle of what leaves
 * cover on the raft for each position. An earlier scan, if there is one, tells more.
 */
export function plantReach(map: CoverMap, grid: CellGrid, layout: BasinLayout, earlier: readonly EarlierPlant[]): readonly (readonly number[])[] {
  const radii = new Map(earlier.map(({ raft, position, radiusMm }) => [`${raft}/${position}`, radiusMm])), all = [...radii.values()].sort((a, b) => a - b);
  const covered = coverByRaft(map, layout.rafts.length);
  return layout.rafts.map((raft, index) => {
    const heights = relativeHeights(map, grid, raft), usual = Math.sqrt(Math.max(1, covered[index]!) / raft.positions.length);
    if (all.length === 0) return heights.map((height) => usual * height);
    return raft.positions.map(({ id }, i) => (radii.get(`${raft.id}/${id}`) ?? middleOf(all)) ** EARLIER_POWER * heights[i]! ** HEIGHT_POWER);
  });
}

/** Cells that leaves cover, by the raft below. */
function coverByRaft({ cover, raft }: CoverMap, rafts: number): Float64Array {
  const covered = new Float64Array(rafts);
  for (let cell = 0; cell < cover.length; cell += 1) covered[raft[cell]!]! += cover[cell]!;
  return covered;
}

/** Mean height of the leaves within half the distance to the next position, over that of the middle plant of the raft. */
function relativeHeights(map: CoverMap, grid: CellGrid, raft: RaftLayout): number[] {
  const radiusMm = halfSpacing(raft), heights = raft.positions.map(({ xMm, yMm }) => meanHeight(map, grid, { xMm: raft.centreMm[0] + xMm, yMm: raft.centreMm[1] + yMm }, radiusMm));
  const middle = middleOf(heights.filter((height) => height > 0).sort((a, b) => a - b));
  return heights.map((height) => (height > 0 ? Math.min(LARGEST, Math.max(1 / LARGEST, height / middle)) : 1));
}

const middleOf = (sorted: readonly number[]): number => sorted[Math.floor(sorted.length / 2)] ?? 1;

/** Half the distance of the two positions of a raft that lie closest; of a single one, half the raft. */
function halfSpacing({ positions, sizeMm }: RaftLayout): number {
  let least = Math.min(...sizeMm);
  positions.forEach((one, i) => positions.slice(0, i).forEach((other) => { least = Math.min(least, Math.hypot(one.xMm - other.xMm, one.yMm - other.yMm)); }));
  return least / 2;
}

function meanHeight({ cover, heightMm }: CoverMap, grid: CellGrid, middle: { readonly xMm: number; readonly yMm: number }, radiusMm: number): number {
  let sum = 0, covered = 0;
  visitDisc(grid, middle, radiusMm, (cell) => {
    if (!(heightMm[cell]! > 0)) return;
    sum += cover[cell]! * heightMm[cell]!;
    covered += cover[cell]!;
  });
  return covered > 0 ? sum / covered : 0;
}
