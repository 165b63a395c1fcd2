import { COLOURED, COLOURED_SUM, lowOf, NEUTRAL_SUM, PER_MM, POINTS, STRIDE, topOf } from './field';
import { f32At, f64At, i32At, setF32, setF64 } from './memory';

/** Counts of a cell and sums of heights over its raft, less strays. `planes`: level, slope along x, slope along y of each raft. */
export function readCells(
  field: usize, columns: i32, rows: i32, cellMm: f64, leftMm: f64, nearMm: f64, raft: usize, planes: usize, spike: f64,
  points: usize, coloured: usize, heights: usize,
): void {
  for (let row = 0, cell = 0; row < rows; row += 1) {
    const y = nearMm + (<f64>row + 0.5) * cellMm;
    for (let column = 0; column < columns; column += 1, cell += 1) {
      const at = field + <usize>(cell * STRIDE * 4);
      setF32(points, cell, <f32>i32At(at, POINTS));
      let n = <f64>i32At(at, COLOURED);
      if (n == 0) { setF32(coloured, cell, 0); setF32(heights, cell, 0); continue; }
      let sum = <f64>i32At(at, COLOURED_SUM);
      const top = <f64>topOf(at), low = <f64>lowOf(at);
      if (n > 2 && top * n - sum > spike * (n - 1)) { sum -= top; n -= 1; }
      if (n > 2 && sum - low * n > spike * (n - 1)) { sum -= low; n -= 1; }
      const plane = <i32>load<u8>(raft + <usize>cell) * 3;
      setF32(coloured, cell, <f32>n);
      setF32(heights, cell, <f32>(sum / PER_MM - n * (f64At(planes, plane) + f64At(planes, plane + 1) * (leftMm + (<f64>column + 0.5) * cellMm) + f64At(planes, plane + 2) * y)));
    }
  }
}

/** Marks what stands lower than `stainMm` on average over a window: counts and sums of its cells, zero elsewhere. Returns how many cells. */
export function findStains(coloured: usize, heights: usize, windowCount: usize, windowSum: usize, stainMm: f64, cells: i32, stainCount: usize, stainSum: usize): i32 {
  let stains = 0;
  for (let cell = 0; cell < cells; cell += 1) {
    const n = f32At(coloured, cell);
    const flat = n != 0 && <f64>f32At(windowSum, cell) < stainMm * <f64>f32At(windowCount, cell);
    setF32(stainCount, cell, flat ? n : 0);
    setF32(stainSum, cell, flat ? f32At(heights, cell) : 0);
    if (flat) stains += 1;
  }
  return stains;
}

/** Takes stains out of the coloured points; where stain and leaf meet, the leaf's share is how high the cell's mean lies between both. */
export function takeStains(
  coloured: usize, heights: usize, windowCount: usize, windowSum: usize, stained: usize, low: usize, stainCount: usize, leastPoints: f64, cells: i32,
): void {
  for (let cell = 0; cell < cells; cell += 1) {
    const n = <f64>f32At(coloured, cell), near = <f64>f32At(stained, cell);
    if (n == 0 || near == 0) continue;
    const leaves = <f64>f32At(windowCount, cell) - near;
    if (f32At(stainCount, cell) > 0 && leaves < leastPoints) { setF32(coloured, cell, 0); setF32(heights, cell, 0); continue; }
    if (near < leastPoints || leaves < leastPoints) continue;
    const leafMm = (<f64>f32At(windowSum, cell) - <f64>f32At(low, cell)) / leaves;
    const share = min<f64>(1, max<f64>(0, <f64>f32At(heights, cell) / n / leafMm));
    setF32(coloured, cell, <f32>(n * share));
    if (share < 1) setF32(heights, cell, <f32>(<f64>f32At(coloured, cell) * leafMm));
  }
}

/**
 * Points and cells of bare raft, and of leaves, by block of `size` cells a side: where nothing is coloured, less cells in shadow; and cells
 * with points around which `closed` of all points (over 3 x 3) are coloured.
 */
export function countSurfaces(
  points: usize, coloured: usize, allPoints: usize, allColoured: usize, columns: i32, rows: i32, size: i32, blockColumns: i32, closed: f64,
  barePoints: usize, bareCells: usize, leafPoints: usize, leafCells: usize,
): void {
  for (let row = 0, cell = 0; row < rows; row += 1) {
    const first = (row / size) * blockColumns;
    for (let column = 0; column < columns; column += 1, cell += 1) {
      const seen = <f64>f32At(allPoints, cell), here = f32At(points, cell);
      if (seen == 0) continue;
      const isBare = f32At(coloured, cell) <= 0;
      if (!isBare && (here == 0 || <f64>f32At(allColoured, cell) < closed * seen)) continue;
      const block = first + column / size, counts = isBare ? barePoints : leafPoints, cells = isBare ? bareCells : leafCells;
      setF32(counts, block, f32At(counts, block) + here);
      setF32(cells, block, f32At(cells, block) + 1);
    }
  }
}

/** Share covered by leaves and mean height of each cell, alone and over 3 x 3 cells, from counts and sums and their sums over 3 x 3. */
export function coverCells(
  points: usize, coloured: usize, heights: usize, allPoints: usize, allColoured: usize, allHeights: usize,
  density: usize, columns: i32, rows: i32, size: i32, blockColumns: i32, oneSurface: f64,
  cover: usize, heightMm: usize, smoothMm: usize, smoothCover: usize,
): void {
  for (let row = 0, cell = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1, cell += 1) {
      const leaves = <f64>f32At(allColoured, cell);
      if (leaves <= 0) {
        setF32(cover, cell, 0); setF32(smoothCover, cell, 0); setF32(heightMm, cell, <f32>NaN); setF32(smoothMm, cell, <f32>NaN);
        continue;
      }
      const seen = <f64>f32At(allPoints, cell), single = 9 * oneSurface * <f64>f32At(density, (row / size) * blockColumns + column / size);
      const onTop = seen <= single ? seen : max<f64>(leaves, single);
      const around = leaves / onTop, n = <f64>f32At(coloured, cell), mean = <f64>f32At(allHeights, cell) / leaves, here = <f64>f32At(points, cell);
      setF32(smoothCover, cell, <f32>around);
      setF32(smoothMm, cell, <f32>mean);
      setF32(cover, cell, <f32>(here > 0 && onTop == seen ? n / here : around));
      setF32(heightMm, cell, <f32>(n > 0 ? <f64>f32At(heights, cell) / n : mean));
    }
  }
}

/** Cells without a point in a rectangle of cells. */
export function countEmpty(points: usize, columns: i32, left: i32, right: i32, near: i32, far: i32): i32 {
  let empty = 0;
  for (let row = near; row < far; row += 1) for (let column = left; column < right; column += 1) if (f32At(points, row * columns + column) == 0) empty += 1;
  return empty;
}

/**
 * Bare cells of a rectangle, every `step` rows and columns: x, y, z and number of points as 64-bit columns. A cell is bare without a
 * coloured point in it and `around` cells to each side. Returns how many.
 */
export function bareCells(
  field: usize, columns: i32, left: i32, right: i32, near: i32, far: i32, step: i32, around: i32, cellMm: f64, leftMm: f64, nearMm: f64,
  x: usize, y: usize, z: usize, weight: usize,
): i32 {
  let count = 0;
  for (let row = near; row < far; row += step) {
    for (let column = left; column < right; column += step) {
      const at = field + <usize>((row * columns + column) * STRIDE * 4);
      const points = i32At(at, POINTS);
      if (points == 0 || isColoured(field, columns, row, column, around)) continue;
      setF64(x, count, leftMm + (<f64>column + 0.5) * cellMm);
      setF64(y, count, nearMm + (<f64>row + 0.5) * cellMm);
      setF64(z, count, <f64>i32At(at, NEUTRAL_SUM) / <f64>points / PER_MM);
      setF64(weight, count, <f64>points);
      count += 1;
    }
  }
  return count;
}

function isColoured(field: usize, columns: i32, row: i32, column: i32, around: i32): bool {
  for (let dy = -around; dy <= around; dy += 1) {
    for (let dx = -around; dx <= around; dx += 1) if (i32At(field + <usize>(((row + dy) * columns + column + dx) * STRIDE * 4), COLOURED) > 0) return true;
  }
  return false;
}

/** The nearest of the rafts (centre x, y, size x, y: 4 numbers each) to each block of `step` cells a side. */
export function nearestRafts(columns: i32, rows: i32, step: i32, cellMm: f64, leftMm: f64, nearMm: f64, rafts: usize, count: i32, nearest: usize): void {
  for (let row = 0; row < rows; row += step) {
    const first = row * columns;
    for (let column = 0; column < columns; column += step) {
      const x = leftMm + (<f64>column + <f64>step / 2) * cellMm, y = nearMm + (<f64>row + <f64>step / 2) * cellMm;
      let best = 0;
      let least: f64 = Infinity;
      for (let k = 0; k < count; k += 1) {
        const offX = max<f64>(0, abs<f64>(x - f64At(rafts, 4 * k)) - f64At(rafts, 4 * k + 2) / 2), offY = max<f64>(0, abs<f64>(y - f64At(rafts, 4 * k + 1)) - f64At(rafts, 4 * k + 3) / 2);
        const off = offX * offX + offY * offY;
        if (off < least) { least = off; best = k; }
      }
      memory.fill(nearest + <usize>(first + column), <u8>best, <usize>(min(columns, column + step) - column));
    }
    for (let below = 1; below < step && row + below < rows; below += 1) memory.copy(nearest + <usize>(first + below * columns), nearest + <usize>first, <usize>columns);
  }
}
