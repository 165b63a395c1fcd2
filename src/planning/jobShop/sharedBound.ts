import type { JobPaths } from './jobPaths.ts';
import { shortestWays } from './shortestWays.ts';
import type { ShopModel } from './shopModel.ts';

/** Visits of a pair of alternatives; about 30 ms. */
const MOST_WORK = 3_000_000;
const MOST_ROUNDS = 1500;
/** Parts of the range of heads, and of tails, that a place's load is looked at for. */
const PARTS = 2;

/** So many of the last rounds' choices are kept. */
const KEPT = 24;

export interface SharedBound {
  readonly ticks: number;
  /** By round of the last ones: the alternative of each operation on its job's cheapest path. Mixed together they come near the best sharing of the loads. */
  readonly choices: readonly Int32Array[];
}

/** Alternatives at one place that begin no earlier than `head` and have `tail` after them, all of whose load fits between the two. */
interface Load { readonly members: readonly number[]; readonly around: number }

/**
 * What the choice of alternatives cannot avoid: each job takes a path through its alternatives, the loads of the places, the vehicles' loaded and empty travel and each
 * job's own length must all fit. The bound of that linear programme, by weights on what must fit (its Lagrangian dual): for any weights, the jobs' cheapest
 * paths give a valid bound; weights are bettered by subgradients (Held, Wolfe & Crowder 1974, Mathematical Programming 6:62-88; step length Polyak 1969). `known`: some valid bound.
 */
export function sharedBound(model: ShopModel, paths: JobPaths, known: number): SharedBound {
  const { count, jobs, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const loads = loadsOf(model, paths, known);
  const loadsAt: number[][] = Array.from(altPlace, () => []);
  loads.forEach(({ members }, r) => members.forEach((a) => loadsAt[a]!.push(r)));
  const size = loads.length + jobs + 1, vehicle = size - 1;
  const share = new Float64Array(size).fill(1);
  share[vehicle] = vehicles;
  const weight = new Float64Array(size), slope = new Float64Array(size);
  const potential = new Float64Array(places), imbalance = new Float64Array(places);
  const ways = shortestWays(model);
  const lastTicks = endsOf(model, paths);
  const cost = new Float64Array(altPlace.length), via = new Int32Array(altPlace.length), own = new Float64Array(altPlace.length);
  const unit = Math.max(1, travel.reduce((sum, ticks) => sum + ticks, 0) / Math.max(1, places * (places - 1)));
  const choices: Int32Array[] = [];
  let chosen: Int32Array = new Int32Array(count);
  start();
  let [best, optimism, sinceBetter] = [0, 0.05, 0];
  const rounds = Math.min(MOST_ROUNDS, Math.ceil(MOST_WORK / Math.max(1, pairsOf(model))));
  for (let round = 0; round < rounds; round += 1) {
    chosen = choices.length < KEPT ? new Int32Array(count) : choices.shift()!;
    choices.push(chosen);
    const bound = price();
    if (bound > best * 1.00001) { best = bound; sinceBetter = 0; } else if (++sinceBetter > 15) { optimism *= 0.6; sinceBetter = 0; }
    if (optimism < 1e-4) break;
    advance(bound, Math.max(best, known) * (1 + optimism));
  }
  return { ticks: Math.ceil(best - 1e-6 * Math.max(1, best)), choices };

  /** All places and the vehicles alike. */
  function start(): void {
    const wholes = loads.flatMap(({ members }, r) => (members.length > 0 ? [r] : []));
    for (const r of wholes) weight[r] = 1 / (wholes.length + (vehicles > 0 ? 1 : 0));
    weight[vehicle] = vehicles > 0 ? 1 / vehicles / (wholes.length + 1) : 0;
    normalise();
  }

  function normalise(): void {
    let sum = 0;
    for (let i = 0; i < size; i += 1) sum += weight[i]! * share[i]!;
    for (let i = 0; i < size; i += 1) weight[i]! /= sum;
    for (let p = 0; p < places; p += 1) potential[p]! /= sum;
    // No empty move may pay: its two ends differ by its weighted time at most.
    const mu = weight[vehicle]!;
    for (let to = 0; to < places; to += 1) {
      let most = potential[to]!;
      for (let from = 0; from < places; from += 1) most = Math.max(most, potential[from]! - mu * ways[from * places + to]!);
      own[to] = most;
    }
    for (let p = 0; p < places; p += 1) potential[p] = own[p]!;
  }

  /** The bound at the present weights, and its slopes. */
  function price(): number {
    const mu = weight[vehicle]!;
    slope.fill(0);
    imbalance.fill(0);
    let bound = 0;
    loads.forEach(({ around }, r) => { bound += weight[r]! * around; slope[r] = around; });
    for (let j = 0; j < jobs; j += 1) bound += cheapestPath(j, mu);
    if (vehicles > 0) {
      let end = startPlace;
      for (let p = 0; p < places; p += 1) if (mu * lastTicks[p]! - potential[p]! < mu * lastTicks[end]! - potential[end]!) end = p;
      bound += vehicles * (potential[startPlace]! + mu * lastTicks[end]! - potential[end]!);
      slope[vehicle]! += vehicles * lastTicks[end]!;
      imbalance[startPlace]! += vehicles;
      imbalance[end]! -= vehicles;
    }
    return bound;
  }

  function cheapestPath(j: number, mu: number): number {
    const [first, end] = [jobFirst[j]!, jobFirst[j + 1]!];
    if (first === end) return 0;
    const nu = weight[loads.length + j]!;
    for (let o = first; o < end; o += 1) {
      for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
        const to = altPlace[a]!;
        let least = o === first ? move(startPlace, to, mu, nu) : Infinity;
        if (o > first) for (let b = altFirst[o - 1]!; b < altFirst[o]!; b += 1) { const c = cost[b]! + move(altPlace[b]!, to, mu, nu); if (c < least) { least = c; via[a] = b; } }
        let load = nu;
        for (const r of loadsAt[a]!) load += weight[r]!;
        cost[a] = least + load * altTicks[a]!;
      }
    }
    let last = altFirst[end - 1]!;
    for (let a = last + 1; a < altFirst[end]!; a += 1) if (cost[a]! < cost[last]!) last = a;
    const total = cost[last]!;
    for (let o = end - 1, a = last; o >= first; o -= 1, a = via[a]!) { chosen[o] = a; note(j, a, o === first ? startPlace : altPlace[via[a]!]!); }
    return total;
  }

  function move(from: number, to: number, mu: number, nu: number): number {
    return from === to || vehicles === 0 ? 0 : (mu + nu) * travel[from * places + to]! + potential[to]! - potential[from]!;
  }

  function note(j: number, a: number, from: number): void {
    const to = altPlace[a]!, ticks = from === to ? 0 : travel[from * places + to]!;
    for (const r of loadsAt[a]!) slope[r]! += altTicks[a]!;
    slope[loads.length + j]! += altTicks[a]! + ticks;
    slope[vehicle]! += ticks;
    if (from !== to && vehicles > 0) { imbalance[to]! += 1; imbalance[from]! -= 1; }
  }

  function advance(bound: number, target: number): void {
    let square = 0;
    for (let i = 0; i < size; i += 1) { slope[i]! -= bound * share[i]!; if (weight[i]! > 0 || slope[i]! > 0) square += slope[i]! ** 2; }
    for (let p = 0; p < places; p += 1) square += (unit * imbalance[p]!) ** 2;
    if (square === 0) return;
    const step = (target - bound) / square;
    for (let i = 0; i < size; i += 1) weight[i] = Math.max(0, weight[i]! + step * slope[i]!);
    if (vehicles === 0) weight[vehicle] = 0;
    for (let p = 0; p < places; p += 1) potential[p]! += step * unit * unit * imbalance[p]!;
    normalise();
  }
}

/** For each place all its alternatives, and those that begin late or end early. A load whose surroundings are longer than a known bound says nothing that is sure. */
function loadsOf(model: ShopModel, { head, tail }: JobPaths, known: number): Load[] {
  const at: number[][] = Array.from({ length: model.places }, () => []);
  model.altPlace.forEach((place, a) => at[place]!.push(a));
  return at.filter((all) => all.length > 0).flatMap((all) => {
    const [heads, tails] = [parts(all.map((a) => head[a]!)), parts(all.map((a) => tail[a]!))];
    const seen = new Set<number>();
    return heads.flatMap((h) => tails.flatMap((t): Load[] => {
      const members = all.filter((a) => head[a]! >= h && tail[a]! >= t);
      if (members.length === 0 || h + t > known || seen.has(members.length)) return [];
      seen.add(members.length);
      return [{ members, around: Math.min(...members.map((a) => head[a]!)) + Math.min(...members.map((a) => tail[a]!)) }];
    })).filter(({ around }) => around <= known);
  });
}

function parts(values: readonly number[]): number[] {
  const sorted = [...values].sort((a, b) => a - b);
  return [...new Set(Array.from({ length: PARTS }, (_, i) => sorted[Math.floor((i * sorted.length) / PARTS)]!))];
}

/** By place: how long at least it takes to the end of the plan when a vehicle's last trip has ended there; a vehicle may stay where it starts. */
function endsOf({ places, startPlace, altPlace, altTicks }: ShopModel, { tail }: JobPaths): Float64Array {
  const ends = new Float64Array(places).fill(Infinity);
  altPlace.forEach((p, a) => { ends[p] = Math.min(ends[p]!, altTicks[a]! + tail[a]!); });
  ends[startPlace] = 0;
  return ends.map((value) => (value === Infinity ? 0 : value));
}

function pairsOf({ count, altFirst }: ShopModel): number {
  let pairs = 0;
  for (let o = 1; o < count; o += 1) pairs += (altFirst[o + 1]! - altFirst[o]!) * (altFirst[o]! - altFirst[o - 1]!);
  return pairs + count;
}
