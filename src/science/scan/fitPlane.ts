import { startRandom } from '../seededRandom.ts';
import { inLoops, type Loops } from './loops/openLoops.ts';

/** z = level + slopeX x + slopeY y. */
export interface Plane {
  readonly level: number;
  readonly slopeX: number;
  readonly slopeY: number;
}

export interface FittedPlane extends Plane {
  /** Points within the reach. */
  readonly support: number;
  /** Root mean square distance of these points. */
  readonly rmsMm: number;
}

interface Columns { readonly count: number; readonly x: Float64Array; readonly y: Float64Array; readonly z: Float64Array; readonly weight?: Float64Array }

export const planeAt = (plane: Plane, x: number, y: number): number => plane.level + plane.slopeX * x + plane.slopeY * y;

/**
 * The plane that most points agree on: random triples scored by truncated squares (MSAC, Torr & Zisserman 2000), then least squares
 * over the points within reach, repeated. Undefined when fewer than 20 points or none agree. Same points, same answer.
 */
export function fitPlane(points: Columns, reachMm: number, start?: Plane): FittedPlane | undefined {
  if (points.count < 20) return undefined;
  return inLoops((loops) => {
    const laid = layDown(loops, points);
    let plane: Plane | undefined = start ?? bestTriple(points, laid, reachMm);
    for (let round = 0; plane !== undefined && round < 4; round += 1) plane = leastSquares(laid, plane, reachMm);
    return plane === undefined ? undefined : measured(laid, plane, reachMm);
  });
}

/** The points in the memory of the loops: places, zero without weights, and room for nine sums. */
interface LaidPoints { readonly loops: Loops; readonly count: number; readonly x: number; readonly y: number; readonly z: number; readonly weight: number; readonly sums: number }

function layDown(loops: Loops, { count, x, y, z, weight }: Columns): LaidPoints {
  return { loops, count, x: loops.put(x), y: loops.put(y), z: loops.put(z), weight: weight === undefined ? 0 : loops.put(weight), sums: loops.room(9 * 8) };
}

const TRIPLES = 150;
const SCORED = 1500;
/** Slopes above this are no floating raft and no standing basin. */
const MAX_SLOPE = 0.3;

function bestTriple(points: Columns, { loops, count, x, y, z }: LaidPoints, reachMm: number): Plane | undefined {
  const random = startRandom(20_251);
  const step = Math.max(1, Math.floor(points.count / SCORED));
  let best: Plane | undefined, bestCost = Infinity;
  for (let k = 0; k < TRIPLES; k += 1) {
    const plane = throughThree(points, random.below(points.count), random.below(points.count), random.below(points.count));
    if (plane === undefined) continue;
    const cost = loops.code.planeCost(x, y, z, count, step, plane.level, plane.slopeX, plane.slopeY, reachMm);
    if (cost < bestCost) { best = plane; bestCost = cost; }
  }
  return best;
}

function throughThree({ x, y, z }: Columns, i: number, j: number, k: number): Plane | undefined {
  const ux = x[j]! - x[i]!, uy = y[j]! - y[i]!, uz = z[j]! - z[i]!;
  const vx = x[k]! - x[i]!, vy = y[k]! - y[i]!, vz = z[k]! - z[i]!;
  const area = ux * vy - uy * vx;
  if (Math.abs(area) < 2000) return undefined;
  const slopeX = (uz * vy - uy * vz) / area, slopeY = (ux * vz - uz * vx) / area;
  if (Math.hypot(slopeX, slopeY) > MAX_SLOPE) return undefined;
  return { level: z[i]! - slopeX * x[i]! - slopeY * y[i]!, slopeX, slopeY };
}

function leastSquares({ loops, count, x, y, z, weight, sums }: LaidPoints, around: Plane, reachMm: number): Plane | undefined {
  loops.code.planeMoments(x, y, z, weight, count, around.level, around.slopeX, around.slopeY, reachMm, sums);
  const [n, sx, sy, sz, sxx, sxy, syy, sxz, syz] = loops.view(Float64Array, sums, 9) as unknown as Moments;
  if (n < 10) return undefined;
  const mx = sx / n, my = sy / n, mz = sz / n;
  const cxx = sxx - n * mx * mx, cxy = sxy - n * mx * my, cyy = syy - n * my * my, cxz = sxz - n * mx * mz, cyz = syz - n * my * mz;
  const det = cxx * cyy - cxy * cxy;
  if (!(det > 1e-6 * cxx * cyy)) return undefined;
  const slopeX = (cxz * cyy - cyz * cxy) / det, slopeY = (cyz * cxx - cxz * cxy) / det;
  return { level: mz - slopeX * mx - slopeY * my, slopeX, slopeY };
}

type Moments = readonly [number, number, number, number, number, number, number, number, number];

function measured({ loops, count, x, y, z, sums }: LaidPoints, plane: Plane, reachMm: number): FittedPlane {
  const squares = loops.code.planeSquares(x, y, z, 0, count, plane.level, plane.slopeX, plane.slopeY, reachMm, sums);
  const support = loops.view(Float64Array, sums, 1)[0]!;
  return { ...plane, support, rmsMm: Math.sqrt(squares / Math.max(1, support)) };
}
