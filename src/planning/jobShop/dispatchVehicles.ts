import type { RandomStream } from '../../science/seededRandom.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/** How much each counts against the moment when a job can be picked up. */
export interface DispatchWeights {
  /** The vehicle's empty travel and waiting. */
  readonly empty: number;
  readonly loaded: number;
  /** The job's waiting for its next place. */
  readonly wait: number;
  readonly duration: number;
  /** What the job has left; in its favour. */
  readonly left: number;
}

const MOST: DispatchWeights = { empty: 6, loaded: 2, wait: 2, duration: 1, left: 0.5 };

/** Weights near the given ones, or anywhere. */
export function drawWeights(random: RandomStream, near?: DispatchWeights): DispatchWeights {
  const draw = (name: keyof DispatchWeights): number => {
    const any = MOST[name] * random.uniform() ** 2;
    return near === undefined || random.below(4) === 0 ? any : near[name] * (0.6 + 0.8 * random.uniform());
  };
  return { empty: draw('empty'), loaded: draw('loaded'), wait: draw('wait'), duration: draw('duration'), left: draw('left') };
}

/**
 * A first plan for shops whose vehicles are short: again and again the job, its next place and the vehicle go next that score best by when the job can be picked up, how far the
 * vehicle comes empty and goes loaded, how long the job would wait for its place and be worked on, and how much it has left. `chosen`: the alternatives, where they are chosen already.
 */
export function dispatchVehicles(model: ShopModel, { empty, loaded, wait, duration, left }: DispatchWeights, chosen?: Int32Array): { readonly order: ShopOrder; readonly ticks: number } {
  const { count, jobs, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const { tail, operationTail, shortest } = jobPaths(model);
  const placeFree = new Int32Array(places), vehicleFree = new Int32Array(vehicles), vehicleAt = new Int32Array(vehicles).fill(startPlace);
  const next = Int32Array.from(jobFirst.subarray(0, jobs)), at = new Int32Array(jobs).fill(startPlace), ready = new Int32Array(jobs);
  const order: ShopOrder = { tokens: new Int32Array(2 * count), alternative: new Int32Array(count), vehicle: new Int32Array(count) };
  let ticks = 0, pick = 0, choice = 0, carrier = 0;
  for (let i = 0; i < count; i += 1) { look(); take(i); }
  return { order, ticks };

  function look(): void {
    let least = Infinity;
    for (let j = 0; j < jobs; j += 1) {
      const o = next[j]!, from = at[j]!;
      if (o === jobFirst[j + 1]) continue;
      let v = 0, pickUp = Infinity, cost = Infinity;
      for (let k = 0; k < vehicles; k += 1) {
        const there = Math.max(ready[j]!, vehicleFree[k]! + travel[vehicleAt[k]! * places + from]!);
        const score = there + empty * (there - vehicleFree[k]!);
        if (score < cost) { cost = score; pickUp = there; v = k; }
      }
      const favour = left * (shortest[o]! + operationTail[o]!);
      const [first, end] = chosen === undefined ? [altFirst[o]!, altFirst[o + 1]!] : [chosen[o]!, chosen[o]! + 1];
      for (let a = first; a < end; a += 1) {
        const to = altPlace[a]!, way = travel[from * places + to]!, arrive = from === to ? ready[j]! : pickUp + way;
        const score = (from === to ? ready[j]! : cost + loaded * way) + wait * Math.max(0, placeFree[to]! - arrive) + duration * (altTicks[a]! + tail[a]! - shortest[o]! - operationTail[o]!) - favour;
        if (score < least) { least = score; pick = j; choice = a; carrier = v; }
      }
    }
  }

  function take(i: number): void {
    const j = pick, a = choice, v = carrier, o = next[j]!, from = at[j]!, to = altPlace[a]!;
    let there = ready[j]!;
    if (from !== to) {
      there = vehicleFree[v] = Math.max(there, vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!) + travel[from * places + to]!;
      vehicleAt[v] = to;
    }
    order.tokens[2 * i] = 2 * o; order.tokens[2 * i + 1] = 2 * o + 1;
    order.vehicle[o] = v;
    order.alternative[o] = a;
    placeFree[to] = ready[j] = Math.max(there, placeFree[to]!) + altTicks[a]!;
    ticks = Math.max(ticks, ready[j]!);
    at[j] = to;
    next[j] = o + 1;
  }
}
