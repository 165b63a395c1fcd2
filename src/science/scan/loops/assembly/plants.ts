import { COLOURED, STRIDE } from './field';
import { f32At, f64At, i32At, setF64, setI32 } from './memory';

/** Sorts cells by label: `starts` holds one more number than there are plants, `cellsOf` the cells of one plant behind those of the other. */
export function groupCells(label: usize, cells: i32, plants: i32, starts: usize, cellsOf: usize): void {
  memory.fill(starts, 0, <usize>(plants + 1) << 2);
  for (let cell = 0; cell < cells; cell += 1) {
    const plant = <i32>load<i16>(label + (<usize>cell << 1));
    if (plant >= 0) setI32(starts, plant + 1, i32At(starts, plant + 1) + 1);
  }
  for (let plant = 0; plant < plants; plant += 1) setI32(starts, plant + 1, i32At(starts, plant + 1) + i32At(starts, plant));
  for (let cell = 0; cell < cells; cell += 1) {
    const plant = <i32>load<i16>(label + (<usize>cell << 1));
    if (plant < 0) continue;
    setI32(cellsOf, i32At(starts, plant), cell);
    setI32(starts, plant, i32At(starts, plant) + 1);
  }
  for (let plant = plants; plant > 0; plant -= 1) setI32(starts, plant, i32At(starts, plant - 1));
  setI32(starts, 0, 0);
}

/**
 * Of the cells of one plant: cover, cover times height above zero, points; of the cells with cover: cover, times height, times height
 * squared, cover over points: 7 numbers in `sums`.
 */
export function plantSums(field: usize, cover: usize, heightMm: usize, list: usize, count: i32, sums: usize): void {
  memory.fill(sums, 0, 56);
  for (let i = 0; i < count; i += 1) {
    const cell = i32At(list, i), share = <f64>f32At(cover, cell), height = <f64>f32At(heightMm, cell), at = field + <usize>(cell * STRIDE * 4);
    const points = <f64>i32At(at, COLOURED);
    add(sums, 0, share);
    add(sums, 1, share * max<f64>(0, height));
    add(sums, 2, points);
    if (!(share > 0)) continue;
    add(sums, 3, share);
    add(sums, 4, share * height);
    add(sums, 5, share * height * height);
    add(sums, 6, share / max<f64>(1, points));
  }
}

/** Cover of the cells of one plant by height, in bins of `binMm` from `lowestMm` on (64-bit). */
export function countHeights(cover: usize, heightMm: usize, list: usize, count: i32, lowestMm: f64, binMm: f64, bins: usize, size: i32): void {
  memory.fill(bins, 0, <usize>size << 3);
  for (let i = 0; i < count; i += 1) {
    const cell = i32At(list, i), share = <f64>f32At(cover, cell);
    if (!(share > 0)) continue;
    const bin = <i32>max<f64>(0, min<f64>(<f64>(size - 1), floor<f64>((<f64>f32At(heightMm, cell) - lowestMm) / binMm)));
    add(bins, bin, share);
  }
}

/** The height, in bins from the first, under which this much of the cover lies. */
export function heightBelow(bins: usize, size: i32, weight: f64): f64 {
  let passed: f64 = 0;
  for (let bin = 0; bin < size; bin += 1) {
    const here = f64At(bins, bin);
    if (passed + here >= weight) return <f64>bin + (weight - passed) / here;
    passed += here;
  }
  return 0;
}

/**
 * The outline of one plant: least and greatest place along each of `directions` (cosine, sine), then cells of the border, and those of
 * them that have another plant beside them: 2 numbers a direction and 2 more in `ends`.
 */
export function outline(
  label: usize, smoothCover: usize, columns: i32, cellMm: f64, plant: i32, list: usize, count: i32, directions: usize, directionCount: i32, ends: usize,
): void {
  for (let k = 0; k < directionCount; k += 1) { setF64(ends, 2 * k, Infinity); setF64(ends, 2 * k + 1, -Infinity); }
  let border = 0, shared = 0;
  for (let i = 0; i < count; i += 1) {
    const cell = i32At(list, i);
    if (f32At(smoothCover, cell) < 0.5) continue;
    let touching = 0, outside = 0;
    for (let k = 0; k < 4; k += 1) {
      const next = cell + (k < 2 ? 2 * k - 1 : (2 * k - 5) * columns);
      const other = f32At(smoothCover, next) >= 0.5 ? <i32>load<i16>(label + (<usize>next << 1)) : -1;
      if (other == plant) continue;
      outside += 1;
      if (other >= 0) touching = 1;
    }
    if (outside == 0) continue;
    border += 1;
    shared += touching;
    const x = <f64>(cell % columns) * cellMm, y = <f64>(cell / columns) * cellMm;
    for (let k = 0; k < directionCount; k += 1) {
      const along = f64At(directions, 2 * k) * x + f64At(directions, 2 * k + 1) * y;
      if (along < f64At(ends, 2 * k)) setF64(ends, 2 * k, along);
      if (along > f64At(ends, 2 * k + 1)) setF64(ends, 2 * k + 1, along);
    }
  }
  setF64(ends, 2 * directionCount, <f64>border);
  setF64(ends, 2 * directionCount + 1, <f64>shared);
}

function add(sums: usize, i: i32, value: f64): void { setF64(sums, i, f64At(sums, i) + value); }
