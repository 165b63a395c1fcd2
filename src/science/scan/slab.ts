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

/** The slab that holds most of the points: principal axes, strays cut off in three rounds. */
export function findSlab(points: PlacedPoints): Slab {
  let kept = insideBox(points);
  let slab = principalSlab(kept);
  for (let round = 0; round < 2; round += 1) {
    const { centre: c, normal: n, diagonal } = slab;
    const source = kept;
    kept = keep(source, (i) => Math.abs((source.x[i]! - c[0]) * n[0] + (source.y[i]! - c[1]) * n[1] + (source.z[i]! - c[2]) * n[2]) < 0.2 * diagonal
      && Math.hypot(source.x[i]! - c[0], source.y[i]! - c[1], source.z[i]! - c[2]) < 0.56 * diagonal);
    slab = principalSlab(kept);
  }
  return slab;
}

type Columns = Pick<PlacedPoints, 'count' | 'x' | 'y' | 'z'>;

function insideBox(points: PlacedPoints): Columns {
  const bounds = [points.x, points.y, points.z].map((column) => {
    const sorted = column.slice(0, points.count);
    const low = quantileOf(sorted, 0.01), high = sorted[Math.floor(0.99 * (points.count - 1))]!;
    return [low - 0.1 * (high - low), high + 0.1 * (high - low)] as const;
  });
  const within = (column: Float64Array, axis: number, i: number) => column[i]! >= bounds[axis]![0] && column[i]! <= bounds[axis]![1];
  return keep(points, (i) => within(points.x, 0, i) && within(points.y, 1, i) && within(points.z, 2, i));
}

function keep(points: Columns, keeps: (i: number) => boolean): Columns {
  const x = new Float64Array(points.count), y = new Float64Array(points.count), z = new Float64Array(points.count);
  let n = 0;
  for (let i = 0; i < points.count; i += 1) if (keeps(i)) { x[n] = points.x[i]!; y[n] = points.y[i]!; z[n] = points.z[i]!; n += 1; }
  return { count: n, x, y, z };
}

function principalSlab({ count, x, y, z }: Columns): Slab {
  const mean = (column: Float64Array) => { let sum = 0; for (let i = 0; i < count; i += 1) sum += column[i]!; return sum / count; };
  const centre: Vector = [mean(x), mean(y), mean(z)];
  const moment = (a: Float64Array, b: Float64Array, ma: number, mb: number) => {
    let sum = 0;
    for (let i = 0; i < count; i += 1) sum += (a[i]! - ma) * (b[i]! - mb);
    return sum / count;
  };
  const [cx, cy, cz] = centre;
  const axes = symmetricAxes([moment(x, x, cx, cx), moment(x, y, cx, cy), moment(x, z, cx, cz), moment(y, y, cy, cy), moment(y, z, cy, cz), moment(z, z, cz, cz)]);
  const along = axes[0]!.value + axes[1]!.value;
  return { centre, normal: axes[2]!.axis, diagonal: Math.sqrt(12 * along), thickness: Math.sqrt(axes[2]!.value / (along / 2)) };
}
