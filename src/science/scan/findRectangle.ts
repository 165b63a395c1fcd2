import { inLoops, type Loops } from './loops/openLoops.ts';
import type { PlacedPoints } from './placedPoints.ts';

/** A rectangle that holds the points seen from above: turned by `yawRad` about z, its middle and half sizes in its own axes. */
export interface FoundRectangle {
  readonly yawRad: number;
  readonly middle: readonly [u: number, v: number];
  readonly half: readonly [u: number, v: number];
}

const BINS = 1024;
/** Share of the points that may lie outside on each side: strays, not the rim (a side of it holds about 2 %). */
const OUTSIDE = 0.008;
const RAD = Math.PI / 180;

/** The tightest rectangle over all turns of a quarter: its edges lie along the basin's rim. */
export function findRectangle(points: PlacedPoints, reachMm: number): FoundRectangle {
  return inLoops((loops) => tightestOver({ loops, x: loops.put(points.x), y: loops.put(points.y), count: points.count, every: Math.max(1, Math.floor(points.count / 3000)), reachMm, bins: loops.room(BINS * 8) }));
}

function tightestOver(seen: SeenPoints): FoundRectangle {
  const tightest = (from: number, to: number, step: number) => {
    let best = rectangleAt(seen, from);
    for (let degrees = from + step; degrees < to; degrees += step) {
      const next = rectangleAt(seen, degrees);
      if (next.half[0] + next.half[1] < best.half[0] + best.half[1]) best = next;
    }
    return best;
  };
  const coarse = tightest(-45, 45, 3).yawRad / RAD;
  const fine = tightest(coarse - 3, coarse + 3, 0.5).yawRad / RAD;
  return tightest(fine - 0.5, fine + 0.51, 0.1);
}

/** Points in the loops' memory, every so many of them counted in bins from -reach to reach. */
interface SeenPoints { readonly loops: Loops; readonly x: number; readonly y: number; readonly count: number; readonly every: number; readonly reachMm: number; readonly bins: number }

function rectangleAt(points: SeenPoints, degrees: number): FoundRectangle {
  const yawRad = degrees * RAD;
  const c = Math.cos(yawRad), s = Math.sin(yawRad);
  const across = span(points, c, s), along = span(points, -s, c);
  return { yawRad, middle: [across.middle, along.middle], half: [across.half, along.half] };
}

function span({ loops, x, y, count, every, reachMm, bins }: SeenPoints, alongX: number, alongY: number): { middle: number; half: number } {
  const n = loops.code.countAlong(x, y, count, every, alongX, alongY, reachMm, bins, BINS), counts = loops.view(Float64Array, bins, BINS);
  const scale = BINS / (2 * reachMm);
  const low = cut(counts, n * OUTSIDE, 0, 1) / scale - reachMm, high = cut(counts, n * OUTSIDE, BINS - 1, -1) / scale - reachMm;
  return { middle: (low + high) / 2, half: (high - low) / 2 };
}

/** Place, in bins, at which `outside` points lie behind. */
function cut(bins: Float64Array, outside: number, from: number, step: 1 | -1): number {
  let passed = 0;
  for (let bin = from; bin >= 0 && bin < BINS; bin += step) {
    const here = bins[bin]!;
    if (passed + here > outside) { const part = (outside - passed) / here; return step > 0 ? bin + part : bin + 1 - part; }
    passed += here;
  }
  return from;
}
