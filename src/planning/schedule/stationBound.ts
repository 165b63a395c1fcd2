/** Lower bounds on the finish from the load of stations: work with heads (time until it can begin) and tails (time after it). */
import type { TimeSpan } from './scheduleProblem.ts';
import { openSecondsWithin } from './openSpans.ts';

/** A piece of work that needs one of `places`. */
export interface PlacedWork {
  /** It cannot begin before. */
  readonly headS: number;
  readonly workS: number;
  /** From its end at least this long to the finish. */
  readonly tailS: number;
}

/**
 * Largest over sets of work (all with heads and tails above thresholds) of head + work / places + tail. For one place
 * this is the one-machine preemptive bound of Jackson (Carlier 1982, EJOR 11:42-47), since its worst set has this form.
 */
export function boundOfSets(work: readonly PlacedWork[], places: number): number {
  const byHead = [...work].sort((a, b) => b.headS - a.headS);
  const tails = [...new Set(work.map((w) => w.tailS))];
  let best = 0;
  for (const tailS of tails) {
    let sum = 0;
    for (const one of byHead) {
      if (one.tailS < tailS) continue;
      sum += one.workS;
      const bound = one.headS + Math.ceil(sum / places) + tailS;
      if (bound > best) best = bound;
    }
  }
  return best;
}

/**
 * With several places each place has its own first and last piece of work: sum of the smallest heads, of all work and of
 * the smallest tails, shared by the places (Carlier 1987, EJOR 29:298-306). `gapS`: between two deliveries by one of
 * `carriers` at least so long, and so between two removals. Taken over all work, and without the earliest heads.
 */
export function boundOfPlaces(work: readonly PlacedWork[], places: number, carriers: number, gapS: number): number {
  let best = 0;
  let rest = [...work].sort((a, b) => a.headS - b.headS);
  for (let round = 0; round < MOST_ROUNDS && rest.length >= places; round++) {
    const heads = spread(rest.map((w) => w.headS), places, carriers, gapS);
    const tails = spread(rest.map((w) => w.tailS), places, carriers, gapS);
    const total = rest.reduce((sum, w) => sum + w.workS, heads + tails);
    best = Math.max(best, Math.ceil(total / places));
    const first = (rest[0] as PlacedWork).headS;
    rest = rest.filter((w) => w.headS > first);
  }
  return best;
}

const MOST_ROUNDS = 20;

/** Sum of the smallest `count` times when at most `carriers` of them can be within gapS of each other. */
function spread(times: readonly number[], count: number, carriers: number, gapS: number): number {
  const sorted = [...times].sort((a, b) => a - b);
  const first = sorted[0] as number;
  let sum = 0;
  for (let i = 0; i < count; i++) sum += Math.max(sorted[i] as number, first + Math.floor(i / Math.max(1, carriers)) * gapS);
  return sum;
}

/** Earliest time by which stations with these opening hours can have done all the work between its least head and tail. */
export function boundOfHours(work: readonly PlacedWork[], hours: readonly { places: number; open: readonly TimeSpan[] }[]): number {
  if (work.length === 0) return 0;
  const headS = Math.min(...work.map((w) => w.headS));
  const tailS = Math.min(...work.map((w) => w.tailS));
  const total = work.reduce((sum, w) => sum + w.workS, 0);
  const capacity = (untilS: number): number =>
    hours.reduce((sum, one) => sum + one.places * openSecondsWithin(one.open, headS, untilS), 0);
  let low = headS;
  let high = Math.max(headS, ...hours.flatMap((one) => one.open.map((span) => span.toS)));
  if (capacity(high) < total) return 0;
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (capacity(middle) >= total) high = middle;
    else low = middle + 1;
  }
  return low + tailS;
}
