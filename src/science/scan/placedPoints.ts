import type { PointCloud } from './pointCloud.ts';
import type { Transform } from './rigidTransform.ts';

/** A sample of points in some frame, millimetres, 64-bit; `grey` is 1 where the colour is nearly neutral (raft, rim, water) or unknown. */
export interface PlacedPoints {
  readonly count: number;
  readonly x: Float64Array;
  readonly y: Float64Array;
  readonly z: Float64Array;
  readonly grey: Uint8Array;
}

/** Share of saturation (HSV) above which a point counts as coloured while the pose is sought. */
const COLOURED = 0.15;

/** The points of a cloud after a transform. */
export function placePoints(cloud: PointCloud, by: Transform): PlacedPoints {
  const placed = emptyPoints(cloud.count);
  const { red, green, blue } = cloud;
  for (let i = 0; i < cloud.count; i += 1) {
    setPlaced(placed, i, by, cloud.x[i]!, cloud.y[i]!, cloud.z[i]!);
    placed.grey[i] = red && green && blue ? Number(isGrey(red[i]!, green[i]!, blue[i]!)) : 1;
  }
  return placed;
}

/** The same points after one more transform. */
export function movePoints(points: PlacedPoints, by: Transform): PlacedPoints {
  const moved = { ...emptyPoints(points.count), grey: points.grey };
  for (let i = 0; i < points.count; i += 1) setPlaced(moved, i, by, points.x[i]!, points.y[i]!, points.z[i]!);
  return moved;
}

/** Only the points that `keeps` says. */
export function pickPoints(points: PlacedPoints, keeps: (i: number) => boolean): PlacedPoints {
  const picked = emptyPoints(points.count);
  let n = 0;
  for (let i = 0; i < points.count; i += 1) {
    if (!keeps(i)) continue;
    picked.x[n] = points.x[i]!; picked.y[n] = points.y[i]!; picked.z[n] = points.z[i]!; picked.grey[n] = points.grey[i]!;
    n += 1;
  }
  return { ...picked, count: n };
}

function emptyPoints(count: number): PlacedPoints {
  return { count, x: new Float64Array(count), y: new Float64Array(count), z: new Float64Array(count), grey: new Uint8Array(count) };
}

function setPlaced(into: PlacedPoints, i: number, m: Transform, x: number, y: number, z: number): void {
  into.x[i] = m[0] * x + m[1] * y + m[2] * z + m[3];
  into.y[i] = m[4] * x + m[5] * y + m[6] * z + m[7];
  into.z[i] = m[8] * x + m[9] * y + m[10] * z + m[11];
}

function isGrey(r: number, g: number, b: number): boolean {
  const most = Math.max(r, g, b);
  return most - Math.min(r, g, b) <= COLOURED * most;
}
