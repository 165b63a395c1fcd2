import { solveSmall } from '../chemistry/solveSmall.ts';
import { inLoops, type Loops } from './loops/openLoops.ts';
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
  return inLoops((loops) => fitRounds({ loops, x: loops.put(points.x), y: loops.put(points.y), count: points.count, sums: loops.room(26 * 8) }, innerMm));
}

function fitRounds(seen: SeenRim, innerMm: readonly [number, number]): FittedRim | undefined {
  let state: RimState = { shiftX: 0, shiftY: 0, yaw: 0, half: 12 };
  let found: RimRound | undefined;
  for (const reachMm of [60, 50, 40, 35, 30, 25, 25, 25]) {
    found = oneRound(seen, innerMm, state, reachMm);
    if (found === undefined) return undefined;
    state = found.state;
  }
  const { shiftX, shiftY, yaw, half } = state;
  return { shiftMm: [shiftX, shiftY], yawRad: yaw, halfWidthMm: half, rmsMm: found!.rmsMm, points: found!.points, sides: found!.sides };
}

interface RimState { readonly shiftX: number; readonly shiftY: number; readonly yaw: number; readonly half: number }
interface RimRound { readonly state: RimState; readonly rmsMm: number; readonly points: number; readonly sides: [number, number, number, number] }

/** The points in the loops' memory, and room for 26 sums. */
interface SeenRim { readonly loops: Loops; readonly x: number; readonly y: number; readonly count: number; readonly sums: number }

/** Off after a change of the state = off - sign (shift in own axes) + sign (turn times the other coordinate) - half; least squares of that. */
function oneRound({ loops, x, y, count, sums }: SeenRim, innerMm: readonly [number, number], from: RimState, reachMm: number): RimRound | undefined {
  loops.code.rimMoments(x, y, count, from.shiftX, from.shiftY, Math.cos(from.yaw), Math.sin(from.yaw), innerMm[0] / 2 + from.half, innerMm[1] / 2 + from.half, reachMm, sums);
  const found = loops.view(Float64Array, sums, 26), matrix = found.slice(0, 16), right = found.slice(16, 20);
  const [squares, n] = [found[20]!, found[21]!], sides: [number, number, number, number] = [found[22]!, found[23]!, found[24]!, found[25]!];
  if (n < 60 || sides.filter((count) => count > n / 40).length < 3 || !solveSmall(matrix, right, 4, 4)) return undefined;
  const state = { shiftX: from.shiftX + right[0]!, shiftY: from.shiftY + right[1]!, yaw: from.yaw + right[2]!, half: from.half + right[3]! };
  return { state, rmsMm: Math.sqrt(squares / n), points: n, sides };
}
