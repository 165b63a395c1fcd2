import { f32At, f64At, i32At, setF32, setI32 } from './memory';

/** Cells by cost in buckets of equal width, each a chain of entries (cell, next), behind `heads`: cheaper than a heap, and exact enough for ways of many cells. */
const BUCKETS: i32 = 1 << 16;

/** Room for the queue's heads, bytes. */
export function queueBytes(): i32 { return BUCKETS << 2; }

let used: i32 = 0;
let at: i32 = 0;

function bucketOf(cost: f64, perCost: f64): i32 { return min(BUCKETS - 1, <i32>(cost * perCost)); }

function put(queue: usize, cell: i32, cost: f64, perCost: f64): void {
  const bucket = bucketOf(cost, perCost);
  const entry = queue + <usize>queueBytes() + (<usize>used << 3);
  if (entry + 8 > <usize>memory.size() << 16) memory.grow(64);
  store<i32>(entry, cell);
  store<i32>(entry + 4, i32At(queue, bucket));
  setI32(queue, bucket, used);
  used += 1;
}

/** A cell of the cheapest bucket; -1 when none is left. */
function take(queue: usize): i32 {
  while (at < BUCKETS) {
    const head = i32At(queue, at);
    if (head >= 0) {
      const entry = queue + <usize>queueBytes() + (<usize>head << 3);
      setI32(queue, at, load<i32>(entry + 4));
      return load<i32>(entry);
    }
    at += 1;
  }
  return -1;
}

/**
 * Takes cell after cell in the order of cost, from `seeds` on, and passes its label on to the eight around it where that is cheaper.
 * `label` (16-bit), `cost`, `bareWay` are changed; `queue` has to be the last thing in memory, which it grows, and is left zero.
 * `limits`: leaf cover, bare cost, bare way in mm, step cost.
 */
export function spread(
  label: usize, cost: usize, bareWay: usize, seeds: usize, seedCount: i32, smoothCover: usize, smoothMm: usize,
  columns: i32, cells: i32, cellMm: f64, slowness: usize, limits: usize, queue: usize,
): void {
  const leafCover = f64At(limits, 0), bareCost = f64At(limits, 1), bareWayMm = f64At(limits, 2), stepCost = f64At(limits, 3);
  const perCost = 1 / (cellMm / 4), aslant = sqrt<f64>(2) * cellMm, last = cells - columns;
  used = 0;
  at = 0;
  memory.fill(queue, 0xff, <usize>queueBytes());
  for (let i = 0; i < seedCount; i += 1) put(queue, i32At(seeds, i), 0, perCost);
  for (let cell = take(queue); cell >= 0; cell = take(queue)) {
    const from = <f64>f32At(cost, cell), column = cell % columns;
    if (bucketOf(from, perCost) < at || column < 1 || column >= columns - 1 || cell < columns || cell >= last) continue;
    const plant = load<i16>(label + (<usize>cell << 1)), slow = f64At(slowness, <i32>plant), way = <f64>f32At(bareWay, cell);
    const mean = <f64>f32At(smoothMm, cell), height = mean > 0 ? mean : 0;
    for (let k = 0; k < 8; k += 1) {
      const row = k < 2 ? 0 : k == 2 || k == 4 || k == 5 ? 1 : -1;
      const aside = k == 0 || k == 4 || k == 6 ? 1 : k == 2 || k == 3 ? 0 : -1;
      const next = cell + row * columns + aside, length = k < 4 ? cellMm : aslant;
      if (<f64>f32At(cost, next) <= from) continue;
      let reached = from, bare: f64 = 0;
      if (<f64>f32At(smoothCover, next) >= leafCover) {
        const step = stepCost * (<f64>f32At(smoothMm, next) - height);
        reached += slow * sqrt<f64>(length * length + step * step);
      } else {
        bare = way + length;
        if (bare > bareWayMm) continue;
        reached += slow * length * bareCost;
      }
      if (reached >= <f64>f32At(cost, next)) continue;
      setF32(cost, next, <f32>reached);
      store<i16>(label + (<usize>next << 1), plant);
      setF32(bareWay, next, <f32>bare);
      put(queue, next, reached, perCost);
    }
  }
  memory.fill(queue, 0, <usize>queueBytes() + (<usize>used << 3));
}

/** Takes the label from cells that nothing covers, and from those farther than `fringeMm` from the leaf over bare cells. */
export function trimFringe(label: usize, cover: usize, bareWay: usize, fringeMm: f64, cells: i32): void {
  for (let cell = 0; cell < cells; cell += 1) {
    const place = label + (<usize>cell << 1);
    if (load<i16>(place) >= 0 && (f32At(cover, cell) == 0 || <f64>f32At(bareWay, cell) > fringeMm)) store<i16>(place, -1);
  }
}
