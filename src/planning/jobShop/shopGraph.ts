import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/**
 * A plan of a job shop as a graph (Roy & Sussmann 1964): node o is operation o, node count + o the trip that brings its job there; every place and
 * every vehicle has its line of nodes, one after the other. Head: earliest start; tail: longest way from a node's end to the end of the plan.
 * The arrays may be read by whoever judges a change; they are written by the functions only.
 */
export interface ShopGraph {
  readonly nodes: number;
  /** Stands for no node; has no head, no tail and no duration. */
  readonly none: number;
  readonly ticks: Int32Array;
  readonly head: Int32Array;
  readonly tail: Int32Array;
  /** Neighbours in the job. */
  readonly jobBefore: Int32Array;
  readonly jobAfter: Int32Array;
  /** Neighbours in the line of the place or the vehicle. */
  readonly before: Int32Array;
  readonly after: Int32Array;
  /** Empty travel from the node before in the line (or from the start) to a trip's beginning. */
  readonly lag: Int32Array;
  /** Line of each node: a place, or places + vehicle; -1 where it stands in none (a job that stays where it is). */
  readonly line: Int32Array;
  readonly first: Int32Array;
  readonly lines: number;
  readonly alternative: Int32Array;
  /** Every node after all that must come before it, and where each stands in it. */
  readonly order: Int32Array;
  readonly position: Int32Array;
  readonly makespan: () => number;
  /** Latest end among the first so many nodes of the order. */
  readonly latest: Int32Array;
  /** Begins anew from an order of everything. */
  readonly load: (given: ShopOrder) => void;
  readonly save: () => ShopOrder;
  readonly unlink: (node: number) => void;
  /** Puts a node into a line behind another one, or first behind none. */
  readonly link: (node: number, line: number, behind: number) => void;
  /** Another alternative for an operation that stands in no line: the trips to it and from it are as long as then, and those that are not needed leave their line. */
  readonly choose: (operation: number, alternative: number) => void;
  /** Whether a trip has a way to go. */
  readonly isNeeded: (trip: number) => boolean;
  /** Places where a trip begins and ends; a vehicle begins where the end of `none` is. */
  readonly origin: Int32Array;
  readonly target: Int32Array;
  /** Order, heads and tails anew. False where the arcs run in a circle. */
  readonly time: () => boolean;
}

export function shopGraph(model: ShopModel): ShopGraph {
  const { count: n, places, vehicles, jobOf, jobFirst, altPlace, altTicks, travel, startPlace } = model;
  const hasTrips = vehicles > 0;
  const nodes = hasTrips ? 2 * n : n, none = nodes, lines = places + vehicles;
  const make = (fill = 0): Int32Array<ArrayBuffer> => new Int32Array(nodes + 1).fill(fill);
  const [ticks, head, tail, lag, open, position, latest] = [make(), make(), make(), make(), make(), make(), make()];
  const [jobBefore, jobAfter, before, after, line] = [make(none), make(none), make(none), make(none), make(-1)];
  const order = new Int32Array(nodes), first = new Int32Array(lines).fill(none), last = new Int32Array(lines).fill(none);
  const alternative = Int32Array.from(model.altFirst.subarray(0, n));
  let makespan = 0;
  for (let o = 0; o < n; o += 1) {
    const isFirst = o === jobFirst[jobOf[o]!], isLast = o + 1 === jobFirst[jobOf[o]! + 1];
    jobBefore[o] = hasTrips ? n + o : isFirst ? none : o - 1;
    jobAfter[o] = isLast ? none : hasTrips ? n + o + 1 : o + 1;
    if (hasTrips) { jobBefore[n + o] = isFirst ? none : o - 1; jobAfter[n + o] = o; }
  }

  const origin = make(startPlace), target = make(startPlace);
  const isNeeded = (trip: number): boolean => origin[trip] !== target[trip];
  const emptyTicks = (from: number, to: number): number => travel[target[from]! * places + origin[to]!]!;

  function link(node: number, to: number, behind: number): void {
    const next = behind === none ? first[to]! : after[behind]!;
    line[node] = to; before[node] = behind; after[node] = next;
    if (behind === none) first[to] = node; else after[behind] = node;
    if (next === none) last[to] = node; else before[next] = node;
    if (to < places) return;
    lag[node] = emptyTicks(behind, node);
    if (next !== none) lag[next] = emptyTicks(node, next);
  }

  function unlink(node: number): void {
    const from = line[node]!;
    if (from < 0) return;
    const b = before[node]!, a = after[node]!;
    if (b === none) first[from] = a; else after[b] = a;
    if (a === none) last[from] = b; else before[a] = b;
    line[node] = -1; before[node] = after[node] = none; lag[node] = 0;
    if (from >= places && a !== none) lag[a] = emptyTicks(b, a);
  }

  function choose(o: number, a: number): void {
    alternative[o] = a;
    ticks[o] = altTicks[a]!;
    if (!hasTrips) return;
    target[n + o] = altPlace[a]!;
    measure(n + o);
    if (o + 1 === jobFirst[jobOf[o]! + 1]) return;
    origin[n + o + 1] = altPlace[a]!;
    measure(n + o + 1);
  }

  /** A trip's length and the empty travel before and after it. */
  function measure(trip: number): void {
    const from = origin[trip]!, to = target[trip]!;
    ticks[trip] = from === to ? 0 : travel[from * places + to]!;
    if (line[trip]! < 0) return;
    if (from === to) { unlink(trip); return; }
    lag[trip] = emptyTicks(before[trip]!, trip);
    const next = after[trip]!;
    if (next !== none) lag[next] = emptyTicks(trip, next);
  }

  function load(given: ShopOrder): void {
    first.fill(none); last.fill(none); before.fill(none); after.fill(none); line.fill(-1); lag.fill(0);
    alternative.set(given.alternative);
    for (let o = 0; o < n; o += 1) choose(o, alternative[o]!);
    for (const token of given.tokens) {
      const o = token >> 1;
      if ((token & 1) === 1) { const place = altPlace[alternative[o]!]!; link(o, place, last[place]!); }
      else if (hasTrips && isNeeded(n + o)) { const to = places + given.vehicle[o]!; link(n + o, to, last[to]!); }
    }
    time();
  }

  function save(): ShopOrder {
    const tokens = new Int32Array(2 * n);
    let i = 0;
    for (const node of order) {
      if (node >= n) tokens[i++] = 2 * (node - n);
      else { if (!hasTrips) tokens[i++] = 2 * node; tokens[i++] = 2 * node + 1; }
    }
    return { tokens, alternative: alternative.slice(), vehicle: Int32Array.from({ length: n }, (_, o) => (hasTrips ? Math.max(0, line[n + o]! - places) : 0)) };
  }

  function time(): boolean {
    let end = 0;
    for (let x = 0; x < nodes; x += 1) {
      open[x] = (jobBefore[x] === none ? 0 : 1) + (before[x] === none ? 0 : 1);
      if (open[x] === 0) order[end++] = x;
    }
    makespan = 0;
    for (let i = 0; i < end; i += 1) {
      const x = order[i]!, jb = jobBefore[x]!, lb = before[x]!;
      const viaJob = head[jb]! + ticks[jb]!, viaLine = head[lb]! + ticks[lb]! + lag[x]!;
      head[x] = viaJob > viaLine ? viaJob : viaLine;
      position[x] = i;
      latest[i] = makespan;
      if (head[x]! + ticks[x]! > makespan) makespan = head[x]! + ticks[x]!;
      const j = jobAfter[x]!, l = after[x]!;
      if (j !== none && --open[j]! === 0) order[end++] = j;
      if (l !== none && --open[l]! === 0) order[end++] = l;
    }
    latest[nodes] = makespan;
    if (end < nodes) return false;
    for (let i = nodes - 1; i >= 0; i -= 1) {
      const x = order[i]!, j = jobAfter[x]!, l = after[x]!;
      const viaJob = tail[j]! + ticks[j]!, viaLine = tail[l]! + ticks[l]! + lag[l]!;
      tail[x] = viaJob > viaLine ? viaJob : viaLine;
    }
    return true;
  }

  return { nodes, none, ticks, head, tail, jobBefore, jobAfter, before, after, lag, line, first, lines, alternative, order, position, latest, makespan: () => makespan, load, save, unlink, link, choose, isNeeded, origin, target, time };
}
