import { inLoops, type Loops } from './loops/openLoops.ts';
import type { PlacedPoints } from './placedPoints.ts';
import { quantileOf } from './quantile.ts';
import type { Vector } from './rigidTransform.ts';
import { symmetricAxes } from './symmetricAxes.ts';

/** A basin seen from far: a flat thing with a middle, a thin direction and a size. */
export interface Slab {
  readonly centre: Vector;
  /** Unit vector across the slab; which way is up is not known yet. */
  readonly normal: Vector;
  /** Diagonal of the rectangle whose evenly spread points have this spread. */
  readonly diagonal: number;
  /** Standard deviation across the slab over that along it; below about 0.2 for a basin. */
  readonly thickness: number;
}

/** The slab that holds most of the points: principal axes, strays cut off in two rounds. */
export function findSlab(points: PlacedPoints): Slab {
  const { count, x, y, z } = points, box = [x, y, z].flatMap((column) => boundsOf(column.slice(0, count)));
  return inLoops((loops) => slabOf({ loops, count, x: loops.put(x), y: loops.put(y), z: loops.put(z), box, sums: loops.room(10 * 8) }));
}

function slabOf(laid: LaidPoints): Slab {
  const { box } = laid;
  const middle: Vector = [(box[0]! + box[1]!) / 2, (box[2]! + box[3]!) / 2, (box[4]! + box[5]!) / 2];
  let slab = principalSlab(laid, { centre: middle, normal: [0, 0, 1] }, Infinity, Infinity);
  for (let round = 0; round < 2; round += 1) slab = principalSlab(laid, slab, 0.2 * slab.diagonal, 0.56 * slab.diagonal);
  return slab;
}

interface LaidPoints { readonly loops: Loops; readonly count: number; readonly x: number; readonly y: number; readonly z: number; readonly box: readonly number[]; readonly sums: number }

function boundsOf(column: Float64Array): readonly [number, number] {
  const low = quantileOf(column, 0.01), high = column[Math.floor(0.99 * (column.length - 1))]!;
  return [low - 0.1 * (high - low), high + 0.1 * (high - low)];
}

/** Principal axes of the points in the box that lie near a slab: nearer than `across` to its plane and than `along` to its middle. */
function principalSlab({ loops, count, x, y, z, box, sums }: LaidPoints, { centre, normal }: Pick<Slab, 'centre' | 'normal'>, across: number, along: number): Slab {
  loops.code.slabMoments(x, y, z, count, loops.put(Float64Array.from([...box, ...centre, ...normal])), across, along, sums);
  const [n, sx, sy, sz, xx, xy, xz, yy, yz, zz] = loops.view(Float64Array, sums, 10) as unknown as Moments;
  const [mx, my, mz] = [sx / n, sy / n, sz / n];
  const axes = symmetricAxes([xx / n - mx * mx, xy / n - mx * my, xz / n - mx * mz, yy / n - my * my, yz / n - my * mz, zz / n - mz * mz]);
  const spread = axes[0]!.value + axes[1]!.value;
  return { centre: [centre[0] + mx, centre[1] + my, centre[2] + mz], normal: axes[2]!.axis, diagonal: Math.sqrt(12 * spread), thickness: Math.sqrt(axes[2]!.value / (spread / 2)) };
}

type Moments = readonly [number, number, number, number, number, number, number, number, number, number];
