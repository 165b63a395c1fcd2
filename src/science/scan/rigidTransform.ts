/** Turns and shifts points: x' = m0 x + m1 y + m2 z + m3, and so on row by row; 12 numbers. A change of unit is a factor in them. */
export type Transform = readonly [number, number, number, number, number, number, number, number, number, number, number, number];

export type Vector = readonly [x: number, y: number, z: number];

export const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

export const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

export const scaled = (a: Vector, by: number): Vector => [a[0] * by, a[1] * by, a[2] * by];

export const unitVector = (a: Vector): Vector => scaled(a, 1 / Math.hypot(...a));

/** The turn whose rows are the three axes, applied to points less `centre`. */
export function frameTransform(xAxis: Vector, yAxis: Vector, zAxis: Vector, centre: Vector): Transform {
  return [...xAxis, -dot(xAxis, centre), ...yAxis, -dot(yAxis, centre), ...zAxis, -dot(zAxis, centre)];
}

/** First `first`, then `then`. */
export function chain(first: Transform, then: Transform): Transform {
  const row = (r: number): [number, number, number, number] => {
    const at = (c: number) => then[r]! * first[c]! + then[r + 1]! * first[4 + c]! + then[r + 2]! * first[8 + c]!;
    return [at(0), at(1), at(2), at(3) + then[r + 3]!];
  };
  return [...row(0), ...row(4), ...row(8)];
}

/**
 * The axes of a frame whose third axis is `up`, reached from the file's axes by the shortest turn that brings the file's own upward
 * axis (the coordinate axis nearest to `up`) there; a file with y up or hanging upside down is first stood up about its x axis.
 */
export function standUp(up: Vector): readonly [Vector, Vector] {
  const nearest = [0, 1, 2].reduce((best, axis) => (Math.abs(up[axis]!) > Math.abs(up[best]!) ? axis : best), 0);
  const right: Vector = nearest === 0 ? [0, 0, up[0] > 0 ? -1 : 1] : [1, 0, 0];
  const x = unitVector([right[0] - up[0] * dot(right, up), right[1] - up[1] * dot(right, up), right[2] - up[2] * dot(right, up)]);
  return [x, cross(up, x)];
}
