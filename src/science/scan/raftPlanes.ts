import type { BasinLayout, RaftLayout } from './basinLayout.ts';
import { fitPlane, type Plane } from './fitPlane.ts';
import type { CellGrid, HeightField } from './heightField.ts';
import { inLoops } from './loops/openLoops.ts';

/** The surface of a floating raft in the basin's frame, from its bare cells in this scan. */
export interface RaftPlane {
  readonly plane: Plane;
  readonly bareCells: number;
  /** Root mean square of single points about the plane, mm. */
  readonly noiseMm: number;
  /** 'bare' read from this raft; 'borrowed' too little of it is bare, so the mean level of the others, or zero, stands in. */
  readonly from: 'bare' | 'borrowed';
}

/** Rafts heave and tilt less than this; what is farther away is not raft. */
const REACH_MM = 20;
const EDGE_MM = 10;
const MIN_CELLS = 60;
/** Of more cells than this every second or third row and column is read: the plane is no better for more. */
const ENOUGH_CELLS = 6000;

/** One plane a raft; rafts float on their own. */
export function raftPlanes(field: HeightField, grid: CellGrid, layout: BasinLayout): RaftPlane[] {
  const own = layout.rafts.map((raft) => ownPlane(field, grid, raft));
  const read = own.filter((each) => each !== undefined);
  const level = read.length === 0 ? 0 : read.reduce((sum, { plane }, i) => sum + levelAt(plane, layout.rafts[own.indexOf(read[i])]!), 0) / read.length;
  const noiseMm = read.length === 0 ? NaN : Math.max(...read.map((each) => each.noiseMm));
  return own.map((each) => each ?? { plane: { level, slopeX: 0, slopeY: 0 }, bareCells: 0, noiseMm, from: 'borrowed' });
}

const levelAt = (plane: Plane, raft: RaftLayout): number => plane.level + plane.slopeX * raft.centreMm[0] + plane.slopeY * raft.centreMm[1];

function ownPlane(field: HeightField, grid: CellGrid, raft: RaftLayout): RaftPlane | undefined {
  const strict = bareCells(field, grid, raft, 1);
  const cells = strict.count >= 8 * MIN_CELLS ? strict : bareCells(field, grid, raft, 0);
  if (cells.count < MIN_CELLS || !spread(cells, raft)) return undefined;
  const wide = fitPlane(cells, REACH_MM, { level: 0, slopeX: 0, slopeY: 0 });
  const plane = wide && fitPlane(cells, Math.max(4, 2.5 * wide.rmsMm), wide);
  if (plane === undefined || plane.support < MIN_CELLS) return undefined;
  return { plane, bareCells: plane.support, noiseMm: pointNoise(cells, plane), from: 'bare' };
}

interface BareCells { readonly count: number; readonly x: Float64Array; readonly y: Float64Array; readonly z: Float64Array; readonly weight: Float64Array }

/** Cells on the raft without a coloured point, and with none in the cells around them. */
function bareCells({ loops, place }: HeightField, grid: CellGrid, raft: RaftLayout, around: 0 | 1): BareCells {
  const [fromX, toX, fromY, toY] = cellsOf(grid, raft);
  const room = Math.max(0, (toX - fromX) * (toY - fromY)), step = Math.max(1, Math.floor(Math.sqrt(room / ENOUGH_CELLS)));
  const columns = [0, 1, 2, 3].map(() => loops.room(room * 8)) as [number, number, number, number];
  const count = loops.code.bareCells(place, grid.columns, fromX, toX, fromY, toY, step, around, grid.cellMm, grid.leftMm, grid.nearMm, ...columns);
  const [x, y, z, weight] = columns.map((column) => loops.copy(Float64Array, column, count)) as [Float64Array, Float64Array, Float64Array, Float64Array];
  return { count, x, y, z, weight };
}

function cellsOf(grid: CellGrid, raft: RaftLayout): [number, number, number, number] {
  const bound = (centre: number, size: number, from: number, most: number): [number, number] => [
    Math.max(1, Math.ceil((centre - size / 2 + EDGE_MM - from) / grid.cellMm)), Math.min(most - 1, Math.floor((centre + size / 2 - EDGE_MM - from) / grid.cellMm))];
  return [...bound(raft.centreMm[0], raft.sizeMm[0], grid.leftMm, grid.columns), ...bound(raft.centreMm[1], raft.sizeMm[1], grid.nearMm, grid.rows)];
}

/** Bare cells have to lie on both sides of the middle in both directions, or a tilt cannot be told from a heave. */
function spread({ count, x, y }: BareCells, raft: RaftLayout): boolean {
  return deviation(x, count) > 0.12 * raft.sizeMm[0] && deviation(y, count) > 0.12 * raft.sizeMm[1];
}

function deviation(values: Float64Array, count: number): number {
  let sum = 0, squares = 0;
  for (let i = 0; i < count; i += 1) { sum += values[i]!; squares += values[i]! ** 2; }
  return Math.sqrt(squares / count - (sum / count) ** 2);
}

function pointNoise({ count, x, y, z, weight }: BareCells, { level, slopeX, slopeY }: Plane): number {
  return inLoops(({ code, put, room, view }) => {
    const support = room(8);
    const squares = code.planeSquares(put(x), put(y), put(z), put(weight), count, level, slopeX, slopeY, REACH_MM, support);
    return Math.sqrt(squares / Math.max(1, view(Float64Array, support, 1)[0]!));
  });
}
