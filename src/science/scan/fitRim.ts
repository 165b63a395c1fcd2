import { solveSmall } from '../chemistry/solveSmall.ts';
import type { PlacedPoints } from './placedPoints.ts';

/** How far the rim's centre line lies from where it was thought to be, and how well it is seen. */
export interface FittedRim {
  readonly shiftMm: readonly [x: number, y: number];
  readonly yawRad: number;
  /** From the inner edge to the middle of the rim; half its width. */
  readonly halfWidthMm: number;
  /** Root mean square distance of rim points from the centre line. */
  readonly rmsMm: number;
  readonly points: number;
  /** Points on the sides at +x, -x, +y, -y. */
  readonly sides: readonly [number, number, number, number];
}

/**
 * Point-to-line fit of the rim's centre line (a rectangle around the inner size) to the points near it, in eight rounds with a
 * narrowing reach; shift, turn and half width are free. Three sides are enough, since a side that is missing leaves opposite sides in
 * one direction. Undefined when fewer than 60 points or fewer than three sides are there.
 */
export function fitRim(points: PlacedPoints, innerMm: readonly [number, number]): FittedRim | undefined {
  let state: RimState = { shiftX: 0, shiftY: 0, yaw: 0, half: 12 };
  let found: RimRound | undefined;
  for (const reachMm of [60, 50, 40, 35, 30, 25, 25, 25]) {
    found = oneRound(points, innerMm, state, reachMm);
    if (found === undefined) return undefined;
    state = found.state;
  }
  const { shiftX, shiftY, yaw, half } = state;
  return { shiftMm: [shiftX, shiftY], yawRad: yaw, halfWidthMm: half, rmsMm: found!.rmsMm, points: found!.points, sides: found!.sides };
}

interface RimState { readonly shiftX: number; readonly shiftY: number; readonly yaw: number; readonly half: number }
interface RimRound { readonly state: RimState; readonly rmsMm: number; readonly points: number; readonly sides: [number, number, number, number] }

function oneRound(points: PlacedPoints, innerMm: readonly [number, number], from: RimState, reachMm: number): RimRound | undefined {
  const matrix = new Float64Array(16), right = new Float64Array(4);
  const sides: [number, number, number, number] = [0, 0, 0, 0];
  const c = Math.cos(from.yaw), s = Math.sin(from.yaw), row = new Float64Array(4);
  let n = 0, squares = 0;
  for (let i = 0; i < points.count; i += 1) {
    const px = points.x[i]! - from.shiftX, py = points.y[i]! - from.shiftY;
    const x = c * px + s * py, y = c * py - s * px;
    const offX = Math.abs(x) - innerMm[0] / 2 - from.half, offY = Math.abs(y) - innerMm[1] / 2 - from.half;
    const alongX = offX > offY ;
    const off = alongX ? offX : offY;
    if (Math.abs(off) > reachMm) continue;
    const sign = (alongX ? x : y) >= 0 ? 1 : -1;
    sides[(alongX ? 0 : 2) + (sign > 0 ? 0 : 1)]! += 1;
    // off after the change = off - sign (shift in own axes) + sign (turn times the other coordinate) - half
    row[0] = sign * (alongX ? c : -s); row[1] = sign * (alongX ? s : c); row[2] = sign * (alongX ? -y : x); row[3] = 1;
    for (let a = 0; a < 4; a += 1) { right[a]! += row[a]! * off; for (let b = 0; b < 4; b += 1) matrix[a * 4 + b]! += row[a]! * row[b]!; }
    n += 1;
    squares += off * off;
  }
  if (n < 60 || sides.filter((count) => count > n / 40).length < 3 || !solveSmall(matrix, right, 4, 4)) return undefined;
  const state = { shiftX: from.shiftX + right[0]!, shiftY: from.shiftY + right[1]!, yaw: from.yaw + right[2]!, half: from.half + right[3]! };
  return { state, rmsMm: Math.sqrt(squares / n), points: n, sides };
}
