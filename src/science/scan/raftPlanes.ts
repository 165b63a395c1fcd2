import type { BasinLayout, RaftLayout } from './basinLayout.ts';
import { fitPlane, type Plane } from './fitPlane.ts';
import { COLOURED, FIELD_STRIDE, NEUTRAL_SUM, PER_MM, POINTS, type CellGrid, type HeightField } from './heightField.ts';

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
function bareCells(field: HeightField, grid: CellGrid, raft: RaftLayout, around: 0 | 1): BareCells {
  const { cellMm, leftMm, nearMm, columns } = grid;
  const [fromX, toX, fromY, toY] = cellsOf(grid, raft);
  const room = Math.max(0, (toX - fromX) * (toY - fromY)), step = Math.max(1, Math.floor(Math.sqrt(room / ENOUGH_CELLS)));
  const x = new Float64Array(room), y = new Float64Array(room), z = new Float64Array(room), weight = new Float64Array(room);
  let count = 0;
  for (let row = fromY; row < toY; row += step) {
    for (let column = fromX; column < toX; column += step) {
      const at = (row * columns + column) * FIELD_STRIDE;
      const points = field[at + POINTS]!;
      if (points === 0 || isColoured(field, columns, row, column, around)) continue;
      x[count] = leftMm + (column + 0.5) * cellMm;
      y[count] = nearMm + (row + 0.5) * cellMm;
      z[count] = field[at + NEUTRAL_SUM]! / points / PER_MM;
      weight[count] = points;
      count += 1;
    }
  }
  return { count, x, y, z, weight };
}

function cellsOf(grid: CellGrid, raft: RaftLayout): [number, number, number, number] {
  const bound = (centre: number, size: number, from: number, most: number): [number, number] => [
    Math.max(1, Math.ceil((centre - size / 2 + EDGE_MM - from) / grid.cellMm)), Math.min(most - 1, Math.floor((centre + size / 2 - EDGE_MM - from) / grid.cellMm))];
  return [...bound(raft.centreMm[0], raft.sizeMm[0], grid.leftMm, grid.columns), ...bound(raft.centreMm[1], raft.sizeMm[1], grid.nearMm, grid.rows)];
}

function isColoured(field: HeightField, columns: number, row: number, column: number, around: number): boolean {
  for (let dy = -around; dy <= around; dy += 1) {
    for (let dx = -around; dx <= around; dx += 1) if (field[((row + dy) * columns + column + dx) * FIELD_STRIDE + COLOURED]! > 0) return true;
  }
  return false;
}

/** Bare cells have to lie on both sides of the middle in both directions, or a tilt cannot be told from a heave. */
function spread(cells: BareCells, raft: RaftLayout): boolean {
  const deviation = (values: Float64Array) => {
    let sum = 0, squares = 0;
    for (let i = 0; i < cells.count; i += 1) { sum += values[i]!; squares += values[i]! ** 2; }
    return Math.sqrt(squares / cells.count - (sum / cells.count) ** 2);
  };
  return deviation(cells.x) > 0.12 * raft.sizeMm[0] && deviation(cells.y) > 0.12 * raft.sizeMm[1];
}

function pointNoise(cells: BareCells, plane: Plane): number {
  let squares = 0, n = 0;
  for (let i = 0; i < cells.count; i += 1) {
    const off = cells.z[i]! - plane.level - plane.slopeX * cells.x[i]! - plane.slopeY * cells.y[i]!;
    if (Math.abs(off) > REACH_MM) continue;
    squares += off * off * cells.weight[i]!;
    n += 1;
  }
  return Math.sqrt(squares / Math.max(1, n));
}
