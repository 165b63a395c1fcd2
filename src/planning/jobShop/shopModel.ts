import type { JobShopProblem } from './jobShopProblem.ts';

/**
 * A job shop as the searches see it: whole ticks in typed arrays. Operations are numbered job after job, alternatives
 * operation after operation.
 */
export interface ShopModel {
  readonly vehicles: number;
  readonly places: number;
  readonly startPlace: number;
  /** Operations. */
  readonly count: number;
  readonly jobs: number;
  readonly jobOf: Int32Array;
  /** First operation of each job, and the count at the end. */
  readonly jobFirst: Int32Array;
  /** First alternative of each operation, and the number of alternatives at the end. */
  readonly altFirst: Int32Array;
  readonly altPlace: Int32Array;
  readonly altTicks: Int32Array;
  /** `from * places + to`; all zero without vehicles. */
  readonly travel: Int32Array;
  readonly ticksPerUnit: number;
  /** Waiting places of each location, -1 without limit. Absent where all are without limit. */
  readonly buffers?: Int32Array;
  /** Whether ticks say the times exactly. Where not, they are rounded up. */
  readonly isExact: boolean;
}

/** Longest plan in ticks, so that sums stay within 32 bits. */
const LONGEST_TICKS = 2 ** 29;

/** Ticks are the coarsest of 1, 0.1, ... 1e-6 units that say all times exactly, or else as fine as 32 bits allow. */
export function modelShop(problem: JobShopProblem): ShopModel {
  const { jobs, locations } = problem;
  const placeOf = new Map(locations.map((name, i) => [name, i]));
  const operations = jobs.flatMap((job) => job.operations);
  const alternatives = operations.flatMap((operation) => operation.alternatives);
  const { ticksPerUnit, isExact } = chooseTicks(problem);
  const ticks = (units: number): number => (isExact ? Math.round(units * ticksPerUnit) : Math.ceil(units * ticksPerUnit));
  const travel = new Int32Array(locations.length ** 2);
  if (problem.vehicles > 0) problem.travelTime.forEach((row, from) => row.forEach((units, to) => { travel[from * locations.length + to] = from === to ? 0 : ticks(units); }));
  return {
    vehicles: problem.vehicles, places: locations.length, startPlace: placeOf.get(problem.startAt) ?? 0,
    count: operations.length, jobs: jobs.length,
    jobOf: Int32Array.from(jobs.flatMap((job, j) => job.operations.map(() => j))),
    jobFirst: firsts(jobs.map((job) => job.operations.length)),
    altFirst: firsts(operations.map((operation) => operation.alternatives.length)),
    altPlace: Int32Array.from(alternatives, ({ at }) => placeOf.get(at)!),
    altTicks: Int32Array.from(alternatives, ({ duration }) => ticks(duration)),
    travel, ticksPerUnit, isExact,
    ...(problem.buffers === undefined ? {} : { buffers: Int32Array.from(locations, (name) => problem.buffers![name] ?? -1) }),
  };
}

function firsts(lengths: readonly number[]): Int32Array {
  const first = new Int32Array(lengths.length + 1);
  lengths.forEach((length, i) => { first[i + 1] = first[i]! + length; });
  return first;
}

function chooseTicks({ vehicles, jobs, travelTime }: JobShopProblem): { ticksPerUnit: number; isExact: boolean } {
  const durations = jobs.flatMap((job) => job.operations.flatMap((operation) => operation.alternatives.map(({ duration }) => duration)));
  const moves = vehicles > 0 ? travelTime.flat() : [];
  const horizon = longestPlan(jobs, moves);
  const isWhole = (units: number): boolean => Math.abs(units - Math.round(units)) < 1e-7;
  for (let ticksPerUnit = 1; ticksPerUnit <= 1e6; ticksPerUnit *= 10) {
    if (horizon * ticksPerUnit > LONGEST_TICKS) break;
    if (durations.every((units) => isWhole(units * ticksPerUnit)) && moves.every((units) => isWhole(units * ticksPerUnit))) return { ticksPerUnit, isExact: true };
  }
  return { ticksPerUnit: horizon > 0 ? LONGEST_TICKS / horizon / 2 : 1, isExact: false };
}

/** Every operation after the other, each with a loaded and an empty move. */
function longestPlan(jobs: JobShopProblem['jobs'], moves: readonly number[]): number {
  const longestMove = moves.reduce((most, units) => Math.max(most, units), 0);
  let sum = 0;
  for (const job of jobs) for (const { alternatives } of job.operations) sum += Math.max(...alternatives.map(({ duration }) => duration)) + 2 * longestMove;
  return sum;
}
