import type { JobShopProblem } from '../../src/planning/jobShop/jobShopProblem.ts';
import { startRandom, type RandomStream } from '../../src/science/seededRandom.ts';

/**
 * What kind of flexible shop. `routing` "free": every operation draws its places, of one of a few kinds of operation, with times of their own (as described by Brandimarte 1993,
 * Annals of Operations Research 41:157-183); "each once": every job visits every machine once in its own order, neighbours of that machine can do it too in the same time
 * (as described by Hurink, Jurisch & Thole 1994, OR Spektrum 15:205-215).
 */
export interface FlexibleKind {
  readonly jobs: number;
  readonly machines: number;
  readonly vehicles: number;
  readonly routing: 'free' | 'each once';
  /** Operations of a job, from and to; not read for "each once". */
  readonly operations?: readonly [number, number];
  /** Mean number of alternatives. */
  readonly flexibility: number;
  readonly durations: readonly [number, number];
  /** Mean travel time over mean duration. */
  readonly travelShare: number;
}

/** A flexible job shop of our own, drawn from a seed. Machines stand on a grid; travel goes along it. */
export function inventFlexible(seed: number, kind: FlexibleKind): JobShopProblem {
  const random = startRandom(seed);
  const between = ([low, high]: readonly [number, number]): number => low + random.below(high - low + 1);
  const machines = Array.from({ length: kind.machines }, (_, m) => `M${m + 1}`);
  const locations = ['LU', ...machines];
  const draw = kind.routing === 'free' ? drawFree(random, kind, between) : drawEachOnce(random, kind, between);
  return {
    vehicles: kind.vehicles, locations, startAt: 'LU', travelTime: layOut(random, locations.length, (kind.travelShare * (kind.durations[0] + kind.durations[1])) / 2),
    jobs: Array.from({ length: kind.jobs }, (_, j) => ({ id: `J${j + 1}`, operations: draw().map((alternatives) => ({ alternatives: alternatives.map(([m, duration]) => ({ at: machines[m]!, duration })) })) })),
  };
}

type Options = [machine: number, duration: number][];

function drawFree(random: RandomStream, kind: FlexibleKind, between: (range: readonly [number, number]) => number): () => Options[] {
  const most = Math.min(kind.machines, Math.round(2 * kind.flexibility - 1));
  const kinds = Array.from({ length: 2 * kind.machines }, (): Options => shuffled(random, kind.machines).slice(0, between([1, most])).map((m) => [m, between(kind.durations)]));
  return () => Array.from({ length: between(kind.operations ?? [5, 10]) }, () => kinds[random.below(kinds.length)]!);
}

function drawEachOnce(random: RandomStream, kind: FlexibleKind, between: (range: readonly [number, number]) => number): () => Options[] {
  return () => shuffled(random, kind.machines).map((own): Options => {
    const duration = between(kind.durations);
    const others = shuffled(random, kind.machines).filter((m) => m !== own);
    const whole = Math.floor(kind.flexibility - 1);
    const more = whole + (random.uniform() < kind.flexibility - 1 - whole ? 1 : 0);
    return [own, ...others.slice(0, more)].map((m) => [m, duration]);
  });
}

function shuffled(random: RandomStream, size: number): number[] {
  const all = Array.from({ length: size }, (_, i) => i);
  for (let i = size - 1; i > 0; i -= 1) { const k = random.below(i + 1); [all[i], all[k]] = [all[k]!, all[i]!]; }
  return all;
}

/** Whole times along a grid whose mean is about the given one. */
function layOut(random: RandomStream, places: number, mean: number): number[][] {
  const side = Math.ceil(Math.sqrt(places));
  const cells = shuffled(random, side * side).slice(0, places);
  const steps = cells.map((a) => cells.map((b) => Math.abs((a % side) - (b % side)) + Math.abs(Math.floor(a / side) - Math.floor(b / side))));
  const average = steps.flat().reduce((sum, value) => sum + value, 0) / (places * (places - 1));
  return steps.map((row) => row.map((value) => Math.round((value * mean) / average)));
}
