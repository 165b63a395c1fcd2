import { COLOURED, COLOURED_SUM, lowOf, NEUTRAL_SUM, POINTS, setLow, setTop, STRIDE, topOf } from './field';
import { f32At, f64At, i32At, setF32, setI32 } from './memory';

/**
 * Records of little-endian 32-bit positions and byte colours into columns from `to` on; `red` below zero: no colours. Returns how many
 * positions are not finite or farther than `farthest`.
 */
export function readFloats(
  bytes: usize, count: i32, recordBytes: i32, offX: i32, offY: i32, offZ: i32, offRed: i32, offGreen: i32, offBlue: i32,
  x: usize, y: usize, z: usize, red: usize, green: usize, blue: usize, to: i32, farthest: f64,
): i32 {
  let unsound = 0;
  let at = bytes;
  for (let i = to, end = to + count; i < end; i += 1, at += <usize>recordBytes) {
    const east = load<f32>(at + <usize>offX), north = load<f32>(at + <usize>offY), up = load<f32>(at + <usize>offZ);
    setF32(x, i, east);
    setF32(y, i, north);
    setF32(z, i, up);
    if (offRed >= 0) {
      store<u8>(red + <usize>i, load<u8>(at + <usize>offRed));
      store<u8>(green + <usize>i, load<u8>(at + <usize>offGreen));
      store<u8>(blue + <usize>i, load<u8>(at + <usize>offBlue));
    }
    if (!(abs<f64>(east) < farthest && abs<f64>(north) < farthest && abs<f64>(up) < farthest)) unsound += 1;
  }
  return unsound;
}

/** Adds points to the field; `red` zero: no colours. Returns how many lay inside. The one loop that sees every point. */
export function addPoints(
  x: usize, y: usize, z: usize, red: usize, green: usize, blue: usize, count: i32,
  field: usize, columns: i32, rows: i32, transform: usize, low: i32, high: i32, keep: i32, above: i32,
): i32 {
  const m0 = f64At(transform, 0), m1 = f64At(transform, 1), m2 = f64At(transform, 2), m3 = f64At(transform, 3);
  const m4 = f64At(transform, 4), m5 = f64At(transform, 5), m6 = f64At(transform, 6), m7 = f64At(transform, 7);
  const m8 = f64At(transform, 8), m9 = f64At(transform, 9), m10 = f64At(transform, 10), m11 = f64At(transform, 11);
  const right = <f64>columns, far = <f64>rows;
  let inside = 0;
  for (let i = 0; i < count; i += 1) {
    const px = <f64>f32At(x, i), py = <f64>f32At(y, i), pz = <f64>f32At(z, i);
    const cx = m0 * px + m1 * py + m2 * pz + m3, cy = m4 * px + m5 * py + m6 * pz + m7;
    if (!(cx >= 0 && cy >= 0 && cx < right && cy < far)) continue;
    const tall = m8 * px + m9 * py + m10 * pz + m11;
    if (!(tall > <f64>(low - 1) && tall < <f64>(high + 1))) continue;
    const height = <i32>tall;
    inside += 1;
    const cell = field + <usize>((<i32>cy * columns + <i32>cx) * STRIDE * 4);
    setI32(cell, POINTS, i32At(cell, POINTS) + 1);
    let coloured = height > above;
    if (red != 0) {
      const r = <i32>load<u8>(red + <usize>i), g = <i32>load<u8>(green + <usize>i), b = <i32>load<u8>(blue + <usize>i);
      coloured = min(min(r, g), b) * 256 < keep * max(max(r, g), b);
    }
    if (!coloured) { setI32(cell, NEUTRAL_SUM, i32At(cell, NEUTRAL_SUM) + height); continue; }
    const before = i32At(cell, COLOURED);
    if (before == 0 || height > topOf(cell)) setTop(cell, height);
    if (before == 0 || height < lowOf(cell)) setLow(cell, height);
    setI32(cell, COLOURED, before + 1);
    setI32(cell, COLOURED_SUM, i32At(cell, COLOURED_SUM) + height);
  }
  return inside;
}

/** Adds one field to another of the same grid. */
export function mergeField(into: usize, from: usize, cells: i32): void {
  for (let cell = 0; cell < cells; cell += 1) {
    const a = into + <usize>(cell * STRIDE * 4), b = from + <usize>(cell * STRIDE * 4);
    if (i32At(b, POINTS) == 0) continue;
    if (i32At(b, COLOURED) > 0) {
      const first = i32At(a, COLOURED) == 0;
      if (first || topOf(b) > topOf(a)) setTop(a, topOf(b));
      if (first || lowOf(b) < lowOf(a)) setLow(a, lowOf(b));
    }
    addTo(a, b, POINTS);
    addTo(a, b, COLOURED);
    addTo(a, b, COLOURED_SUM);
    addTo(a, b, NEUTRAL_SUM);
  }
}

function addTo(into: usize, from: usize, place: i32): void { setI32(into, place, i32At(into, place) + i32At(from, place)); }
