import { inLoops } from './loops/openLoops.ts';
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
export function movePoints({ x, y, z, count, grey }: PlacedPoints, by: Transform): PlacedPoints {
  return inLoops(({ code, put, room, copy }) => {
    const to = [room(count * 8), room(count * 8), room(count * 8)] as const;
    code.movePoints(put(x), put(y), put(z), count, put(Float64Array.from(by)), ...to);
    const [movedX, movedY, movedZ] = to.map((place) => copy(Float64Array, place, count)) as [Float64Array, Float64Array, Float64Array];
    return { count, x: movedX, y: movedY, z: movedZ, grey };
  });
}

/** Every so many of the points. */
export function thinPoints(points: PlacedPoints, every: number): PlacedPoints {
  const count = Math.ceil(points.count / every);
  const thin = <T extends Float64Array | Uint8Array>(column: T, into: T): T => { for (let i = 0; i < count; i += 1) into[i] = column[i * every]!; return into; };
  return { count, x: thin(points.x, new Float64Array(count)), y: thin(points.y, new Float64Array(count)), z: thin(points.z, new Float64Array(count)), grey: thin(points.grey, new Uint8Array(count)) };
}

/** A band about a rectangle seen from above, and about a level. */
export interface Band {
  /** Turn of the rectangle about z, and its middle along its own axes. */
  readonly yawRad: number;
  readonly middle: readonly [u: number, v: number];
  readonly half: readonly [u: number, v: number];
  /** Distance outside the rectangle, least and most. */
  readonly off: readonly [least: number, most: number];
  readonly level?: number;
  readonly reach?: number;
}

/** Only the grey points in a band. */
export function pickBand({ x, y, z, grey, count }: PlacedPoints, { yawRad, middle, half, off, level = 0, reach = Infinity }: Band): PlacedPoints {
  return inLoops(({ code, put, room, copy }) => {
    const to = [room(count * 8), room(count * 8), room(count * 8)] as const;
    const n = code.pickBand(put(x), put(y), put(z), put(grey), count, Math.cos(yawRad), Math.sin(yawRad), ...middle, ...half, ...off, level, reach, ...to);
    const [pickedX, pickedY, pickedZ] = to.map((place) => copy(Float64Array, place, n)) as [Float64Array, Float64Array, Float64Array];
    return { count: n, x: pickedX, y: pickedY, z: pickedZ, grey: new Uint8Array(n).fill(1) };
  });
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
