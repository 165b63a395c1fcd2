import { startRandom } from '../seededRandom.ts';

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
  let plane: Plane | undefined = start ?? bestTriple(points, reachMm);
  for (let round = 0; plane !== undefined && round < 4; round += 1) plane = leastSquares(points, plane, reachMm);
  return plane === undefined ? undefined : measured(points, plane, reachMm);
}

const TRIPLES = 150;
const SCORED = 1500;
/** Slopes above this are no floating raft and no standing basin. */
const MAX_SLOPE = 0.3;

function bestTriple(points: Columns, reachMm: number): Plane | undefined {
  const random = startRandom(20_251);
  const step = Math.max(1, Math.floor(points.count / SCORED));
  let best: Plane | undefined, bestCost = Infinity;
  for (let k = 0; k < TRIPLES; k += 1) {
    const plane = throughThree(points, random.below(points.count), random.below(points.count), random.below(points.count));
    if (plane === undefined) continue;
    const cost = truncatedCost(points, plane, reachMm, step);
    if (cost < bestCost) { best = plane; bestCost = cost; }
  }
  return best;
}

function truncatedCost({ count, x, y, z }: Columns, plane: Plane, reachMm: number, step: number): number {
  const cap = reachMm * reachMm;
  let cost = 0;
  for (let i = 0; i < count; i += step) {
    const off = z[i]! - plane.level - plane.slopeX * x[i]! - plane.slopeY * y[i]!;
    cost += Math.min(cap, off * off);
  }
  return cost;
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

function leastSquares({ count, x, y, z, weight }: Columns, around: Plane, reachMm: number): Plane | undefined {
  let n = 0, sx = 0, sy = 0, sz = 0, sxx = 0, sxy = 0, syy = 0, sxz = 0, syz = 0;
  for (let i = 0; i < count; i += 1) {
    if (Math.abs(z[i]! - planeAt(around, x[i]!, y[i]!)) > reachMm) continue;
    const w = weight === undefined ? 1 : weight[i]!, px = x[i]!, py = y[i]!, pz = z[i]!;
    n += w; sx += w * px; sy += w * py; sz += w * pz;
    sxx += w * px * px; sxy += w * px * py; syy += w * py * py; sxz += w * px * pz; syz += w * py * pz;
  }
  if (n < 10) return undefined;
  const mx = sx / n, my = sy / n, mz = sz / n;
  const cxx = sxx - n * mx * mx, cxy = sxy - n * mx * my, cyy = syy - n * my * my, cxz = sxz - n * mx * mz, cyz = syz - n * my * mz;
  const det = cxx * cyy - cxy * cxy;
  if (!(det > 1e-6 * cxx * cyy)) return undefined;
  const slopeX = (cxz * cyy - cyz * cxy) / det, slopeY = (cyz * cxx - cxz * cxy) / det;
  return { level: mz - slopeX * mx - slopeY * my, slopeX, slopeY };
}

function measured(points: Columns, plane: Plane, reachMm: number): FittedPlane {
  let support = 0, squares = 0;
  for (let i = 0; i < points.count; i += 1) {
    const off = points.z[i]! - planeAt(plane, points.x[i]!, points.y[i]!);
    if (Math.abs(off) > reachMm) continue;
    support += 1;
    squares += off * off;
  }
  return { ...plane, support, rmsMm: Math.sqrt(squares / Math.max(1, support)) };
}
