import { f64At, setF64 } from './memory';


/** Points after a transform of 12 numbers. */
export function movePoints(x: usize, y: usize, z: usize, count: i32, by: usize, toX: usize, toY: usize, toZ: usize): void {
  for (let i = 0; i < count; i += 1) {
    const px = f64At(x, i), py = f64At(y, i), pz = f64At(z, i);
    setF64(toX, i, f64At(by, 0) * px + f64At(by, 1) * py + f64At(by, 2) * pz + f64At(by, 3));
    setF64(toY, i, f64At(by, 4) * px + f64At(by, 5) * py + f64At(by, 6) * pz + f64At(by, 7));
    setF64(toZ, i, f64At(by, 8) * px + f64At(by, 9) * py + f64At(by, 10) * pz + f64At(by, 11));
  }
}

/** Points, every so many, counted by their place along a direction in `size` bins (64-bit) from -reach to reach. Returns how many lie there. */
export function countAlong(x: usize, y: usize, count: i32, every: i32, alongX: f64, alongY: f64, reach: f64, bins: usize, size: i32): i32 {
  const scale = <f64>size / (2 * reach);
  memory.fill(bins, 0, <usize>size << 3);
  let n = 0;
  for (let i = 0; i < count; i += every) {
    const place = floor<f64>((f64At(x, i) * alongX + f64At(y, i) * alongY + reach) * scale);
    if (!(place >= 0 && place < <f64>size)) continue;
    const bin = <i32>place;
    setF64(bins, bin, f64At(bins, bin) + 1);
    n += 1;
  }
  return n;
}

/**
 * Neutral points in a band about a rectangle (half sizes, turned by cosine and sine, shifted in its own axes) and near a level: their
 * distance outside the rectangle lies between `least` and `most`, that from the level is below `reach`. Returns how many.
 */
export function pickBand(
  x: usize, y: usize, z: usize, grey: usize, count: i32, c: f64, s: f64, shiftU: f64, shiftV: f64, halfU: f64, halfV: f64, least: f64, most: f64, level: f64, reach: f64,
  toX: usize, toY: usize, toZ: usize,
): i32 {
  let n = 0;
  for (let i = 0; i < count; i += 1) {
    if (load<u8>(grey + <usize>i) != 1) continue;
    const px = f64At(x, i), py = f64At(y, i), pz = f64At(z, i);
    const off = max<f64>(abs<f64>(px * c + py * s - shiftU) - halfU, abs<f64>(py * c - px * s - shiftV) - halfV);
    if (!(off > least && off < most && abs<f64>(pz - level) < reach)) continue;
    setF64(toX, n, px);
    setF64(toY, n, py);
    setF64(toZ, n, pz);
    n += 1;
  }
  return n;
}

/**
 * Moments about `limits` 6 to 8 of the points inside a box (limits 0 to 5: lowest and highest x, y, z), nearer than `across` to the plane
 * through that centre with the normal of limits 9 to 11, and nearer than `along` to the centre: n, x, y, z, xx, xy, xz, yy, yz, zz.
 */
export function slabMoments(x: usize, y: usize, z: usize, count: i32, limits: usize, across: f64, along: f64, sums: usize): void {
  memory.fill(sums, 0, 80);
  for (let i = 0; i < count; i += 1) {
    const px = f64At(x, i), py = f64At(y, i), pz = f64At(z, i);
    if (px < f64At(limits, 0) || px > f64At(limits, 1) || py < f64At(limits, 2) || py > f64At(limits, 3) || pz < f64At(limits, 4) || pz > f64At(limits, 5)) continue;
    const dx = px - f64At(limits, 6), dy = py - f64At(limits, 7), dz = pz - f64At(limits, 8);
    if (!(abs<f64>(dx * f64At(limits, 9) + dy * f64At(limits, 10) + dz * f64At(limits, 11)) < across && dx * dx + dy * dy + dz * dz < along * along)) continue;
    add(sums, 0, 1); add(sums, 1, dx); add(sums, 2, dy); add(sums, 3, dz);
    add(sums, 4, dx * dx); add(sums, 5, dx * dy); add(sums, 6, dx * dz); add(sums, 7, dy * dy); add(sums, 8, dy * dz); add(sums, 9, dz * dz);
  }
}

/** Truncated squares of distances from a plane, every so many points. */
export function planeCost(x: usize, y: usize, z: usize, count: i32, every: i32, level: f64, slopeX: f64, slopeY: f64, reach: f64): f64 {
  const cap = reach * reach;
  let cost: f64 = 0;
  for (let i = 0; i < count; i += every) {
    const off = f64At(z, i) - level - slopeX * f64At(x, i) - slopeY * f64At(y, i);
    cost += min<f64>(cap, off * off);
  }
  return cost;
}

/** Moments of the points within reach of a plane: n, x, y, z, xx, xy, yy, xz, yz; `weight` zero: all alike. */
export function planeMoments(x: usize, y: usize, z: usize, weight: usize, count: i32, level: f64, slopeX: f64, slopeY: f64, reach: f64, sums: usize): void {
  memory.fill(sums, 0, 72);
  for (let i = 0; i < count; i += 1) {
    const px = f64At(x, i), py = f64At(y, i), pz = f64At(z, i);
    if (abs<f64>(pz - (level + slopeX * px + slopeY * py)) > reach) continue;
    const w: f64 = weight == 0 ? 1 : f64At(weight, i);
    add(sums, 0, w); add(sums, 1, w * px); add(sums, 2, w * py); add(sums, 3, w * pz);
    add(sums, 4, w * px * px); add(sums, 5, w * px * py); add(sums, 6, w * py * py); add(sums, 7, w * px * pz); add(sums, 8, w * py * pz);
  }
}

/** Squares of the distances within reach of a plane, each times its weight; how many points these are goes to `support`. */
export function planeSquares(x: usize, y: usize, z: usize, weight: usize, count: i32, level: f64, slopeX: f64, slopeY: f64, reach: f64, support: usize): f64 {
  let n = 0;
  let squares: f64 = 0;
  for (let i = 0; i < count; i += 1) {
    const off = f64At(z, i) - (level + slopeX * f64At(x, i) + slopeY * f64At(y, i));
    if (abs<f64>(off) > reach) continue;
    n += 1;
    squares += off * off * (weight == 0 ? 1 : f64At(weight, i));
  }
  setF64(support, 0, <f64>n);
  return squares;
}

/**
 * Normal equations of the rim's line: matrix (16), right side (4), sum of squares, points, points on the sides at +x, -x, +y, -y: 26
 * numbers in `sums`. See fitRim.ts.
 */
export function rimMoments(x: usize, y: usize, count: i32, shiftX: f64, shiftY: f64, c: f64, s: f64, outX: f64, outY: f64, reach: f64, sums: usize): void {
  memory.fill(sums, 0, 26 << 3);
  for (let i = 0; i < count; i += 1) {
    const px = f64At(x, i) - shiftX, py = f64At(y, i) - shiftY;
    const along = c * px + s * py, away = c * py - s * px;
    const offX = abs<f64>(along) - outX, offY = abs<f64>(away) - outY;
    const onX = offX > offY, off = onX ? offX : offY;
    if (abs<f64>(off) > reach) continue;
    const sign: f64 = (onX ? along : away) >= 0 ? 1 : -1;
    const r0 = sign * (onX ? c : -s), r1 = sign * (onX ? s : c), r2 = sign * (onX ? -away : along);
    addRow(sums, 0, r0, r0, r1, r2, off);
    addRow(sums, 1, r1, r0, r1, r2, off);
    addRow(sums, 2, r2, r0, r1, r2, off);
    addRow(sums, 3, 1, r0, r1, r2, off);
    add(sums, 20, off * off);
    add(sums, 21, 1);
    add(sums, 22 + (onX ? 0 : 2) + (sign > 0 ? 0 : 1), 1);
  }
}

function addRow(sums: usize, row: i32, factor: f64, r0: f64, r1: f64, r2: f64, off: f64): void {
  add(sums, row * 4, factor * r0);
  add(sums, row * 4 + 1, factor * r1);
  add(sums, row * 4 + 2, factor * r2);
  add(sums, row * 4 + 3, factor);
  add(sums, 16 + row, factor * off);
}

function add(sums: usize, i: i32, value: f64): void { setF64(sums, i, f64At(sums, i) + value); }
