import type { RandomStream } from '../../science/seededRandom.ts';
import type { ShopModel } from './shopModel.ts';

/** One walk of tabu search over the orders of all machines. */
export interface TabuWalk {
  /** Begins anew at an order of all operations that keeps every job's own order. */
  readonly begin: (order: Int32Array) => void;
  /** One move. False where the plan cannot be shortened by any (its longest path has no block), so that it is the shortest. */
  readonly move: () => boolean;
  readonly ticks: () => number;
  /** Shortest since it began, an order of all operations that gives it, and how many moves ago it was found. */
  readonly bestTicks: () => number;
  readonly bestOrder: Int32Array;
  readonly movesSinceBest: () => number;
}

/**
 * Tabu search for the job shop where each operation has one machine and moves take no time. Neighbours: on one longest path, chosen at random,
 * an operation of a block goes right behind its last or before its first, and the first and the last go inside (N6 of Balas & Vazacopoulos 1998, Management
 * Science 44:262-275, N7 of Zhang et al. 2007, Computers & Operations Research 34:3229-3242), where their conditions exclude a circle; judged by their
 * estimate, which recomputes heads and tails of the operations between only. An order of two operations that was given up must not come back for a while,
 * unless that would beat the best.
 */
export function tabuMachines(model: ShopModel, random: RandomStream): TabuWalk {
  const { count: n, jobOf, jobFirst, altPlace, places } = model;
  const d = new Int32Array(n + 1);
  d.set(model.altTicks);
  const jobBefore = new Int32Array(n + 1).fill(n), jobAfter = new Int32Array(n + 1).fill(n);
  for (let o = 0; o < n; o += 1) {
    if (o > jobFirst[jobOf[o]!]!) jobBefore[o] = o - 1;
    if (o + 1 < jobFirst[jobOf[o]! + 1]!) jobAfter[o] = o + 1;
  }
  // n stands for "none" and has no head, no tail and no duration.
  const before = new Int32Array(n + 1).fill(n), after = new Int32Array(n + 1).fill(n);
  const head = new Int32Array(n + 1), tail = new Int32Array(n + 1);
  const open = new Int32Array(n + 1), order = new Int32Array(n), bestOrder = new Int32Array(n), path = new Int32Array(n), last = new Int32Array(places);
  const newHead = new Int32Array(n), newTail = new Int32Array(n), segment = new Int32Array(n);
  const tabuUntil = new Int32Array(n * n);
  const tenure = 10 + Math.round(model.jobs / Math.max(1, places));
  let [ticks, bestTicks, moves, bestMove] = [0, 0, 0, 0];
  let [pickedFrom, pickedTo, pickedBack, pickedScore, ties] = [0, 0, false, 0, 0];
  let [spareFrom, spareTo, spareBack, spares] = [0, 0, false, 0];

  function begin(given: Int32Array): void {
    last.fill(n);
    for (const o of given) {
      const place = altPlace[o]!;
      before[o] = last[place]!;
      after[o] = n;
      if (last[place] !== n) after[last[place]!] = o;
      last[place] = o;
    }
    before[n] = after[n] = n;
    tabuUntil.fill(0);
    moves = bestMove = 0;
    bestTicks = 2 ** 30;
    time();
    keep();
  }

  function keep(): void {
    if (ticks >= bestTicks) return;
    bestTicks = ticks;
    bestMove = moves;
    bestOrder.set(order);
  }

  /** Heads in an order that respects all arcs, then tails backwards. False where the arcs run in a circle. */
  function time(): boolean {
    let end = 0;
    for (let o = 0; o < n; o += 1) {
      open[o] = (jobBefore[o] === n ? 0 : 1) + (before[o] === n ? 0 : 1);
      if (open[o] === 0) order[end++] = o;
    }
    for (let i = 0; i < end; i += 1) {
      const o = order[i]!;
      const viaJob = head[jobBefore[o]!]! + d[jobBefore[o]!]!, viaPlace = head[before[o]!]! + d[before[o]!]!;
      head[o] = viaJob > viaPlace ? viaJob : viaPlace;
      const j = jobAfter[o]!, m = after[o]!;
      if (j !== n && --open[j]! === 0) order[end++] = j;
      if (m !== n && --open[m]! === 0) order[end++] = m;
    }
    if (end < n) return false;
    ticks = 0;
    for (let i = n - 1; i >= 0; i -= 1) {
      const o = order[i]!;
      const viaJob = tail[jobAfter[o]!]! + d[jobAfter[o]!]!, viaPlace = tail[after[o]!]! + d[after[o]!]!;
      tail[o] = viaJob > viaPlace ? viaJob : viaPlace;
      if (head[o]! + d[o]! + tail[o]! > ticks) ticks = head[o]! + d[o]! + tail[o]!;
    }
    return true;
  }

  /** Longest path into `path`; returns its length in operations. */
  function tracePath(): number {
    let o = n, seen = 0, length = 0;
    for (let i = 0; i < n && head[order[i]!] === 0; i += 1) if (ticks === d[order[i]!]! + tail[order[i]!]! && random.below(++seen) === 0) o = order[i]!;
    while (o !== n) {
      path[length++] = o;
      const end = head[o]! + d[o]!;
      const j = jobAfter[o]!, m = after[o]!;
      const isJob = j !== n && head[j] === end && ticks === end + d[j]! + tail[j]!;
      const isPlace = m !== n && head[m] === end && ticks === end + d[m]! + tail[m]!;
      o = isJob && isPlace ? (random.below(2) === 0 ? j : m) : isJob ? j : isPlace ? m : n;
    }
    return length;
  }

  /** Length of the longest path through the operations between when u goes right behind v. */
  function scoreForward(u: number, v: number): number {
    let size = 0, machine = head[before[u]!]! + d[before[u]!]!, longest = 0;
    for (let o = after[u]!; ; o = after[o]!) {
      const viaJob = head[jobBefore[o]!]! + d[jobBefore[o]!]!;
      const h = viaJob > machine ? viaJob : machine;
      segment[size] = o; newHead[size++] = h;
      machine = h + d[o]!;
      if (o === v) break;
    }
    const viaJob = head[jobBefore[u]!]! + d[jobBefore[u]!]!;
    const own = viaJob > machine ? viaJob : machine;
    let back = tail[after[v]!]! + d[after[v]!]!;
    const ownJob = tail[jobAfter[u]!]! + d[jobAfter[u]!]!;
    if (ownJob > back) back = ownJob;
    longest = own + d[u]! + back;
    back += d[u]!;
    for (let i = size - 1; i >= 0; i -= 1) {
      const o = segment[i]!;
      const job = tail[jobAfter[o]!]! + d[jobAfter[o]!]!;
      if (job > back) back = job;
      const through = newHead[i]! + d[o]! + back;
      if (through > longest) longest = through;
      back += d[o]!;
    }
    return longest;
  }

  /** The same when v goes right before u. */
  function scoreBack(u: number, v: number): number {
    let size = 0, machine = tail[after[v]!]! + d[after[v]!]!, longest = 0;
    for (let o = before[v]!; ; o = before[o]!) {
      const viaJob = tail[jobAfter[o]!]! + d[jobAfter[o]!]!;
      const t = viaJob > machine ? viaJob : machine;
      segment[size] = o; newTail[size++] = t;
      machine = t + d[o]!;
      if (o === u) break;
    }
    const viaJob = tail[jobAfter[v]!]! + d[jobAfter[v]!]!;
    const own = viaJob > machine ? viaJob : machine;
    let front = head[before[u]!]! + d[before[u]!]!;
    const ownJob = head[jobBefore[v]!]! + d[jobBefore[v]!]!;
    if (ownJob > front) front = ownJob;
    longest = front + d[v]! + own;
    front += d[v]!;
    for (let i = size - 1; i >= 0; i -= 1) {
      const o = segment[i]!;
      const job = head[jobBefore[o]!]! + d[jobBefore[o]!]!;
      if (job > front) front = job;
      const through = front + d[o]! + newTail[i]!;
      if (through > longest) longest = through;
      front += d[o]!;
    }
    return longest;
  }

  function offer(u: number, v: number, isBack: boolean): void {
    const [j, p] = [jobAfter[u]!, jobBefore[v]!];
    if (isBack ? p !== n && head[u]! + d[u]! < head[p]! + d[p]! : j !== n && tail[v]! + d[v]! < tail[j]! + d[j]!) return;
    const score = isBack ? scoreBack(u, v) : scoreForward(u, v);
    if (random.below(++spares) === 0) { spareFrom = u; spareTo = v; spareBack = isBack; }
    if (score > pickedScore || (score >= bestTicks && isTabu(u, v, isBack))) return;
    ties = score === pickedScore ? ties + 1 : 1;
    if (ties > 1 && random.below(ties) !== 0) return;
    pickedScore = score; pickedFrom = u; pickedTo = v; pickedBack = isBack;
  }

  function isTabu(u: number, v: number, isBack: boolean): boolean {
    if (isBack) { for (let o = before[v]!; ; o = before[o]!) { if (tabuUntil[v * n + o]! > moves) return true; if (o === u) return false; } }
    for (let o = after[u]!; ; o = after[o]!) { if (tabuUntil[o * n + u]! > moves) return true; if (o === v) return false; }
  }

  function offerBlock(first: number, end: number, isPathStart: boolean, isPathEnd: boolean): void {
    const [head0, last0] = [path[first]!, path[end]!];
    if (!isPathEnd) for (let i = first; i < end; i += 1) offer(path[i]!, last0, false);
    if (!isPathStart && (isPathEnd || end > first + 1)) for (let i = first + 1; i <= end; i += 1) offer(head0, path[i]!, true);
    for (let i = first + 1; i < end; i += 1) {
      if (!isPathStart) offer(head0, path[i]!, false);
      if (!isPathEnd) offer(path[i]!, last0, true);
    }
  }

  function place(u: number, v: number, isBack: boolean): void {
    const moved = isBack ? v : u;
    const [b, a] = [before[moved]!, after[moved]!];
    if (b !== n) after[b] = a;
    if (a !== n) before[a] = b;
    const [newBefore, newAfter] = isBack ? [before[u]!, u] : [v, after[v]!];
    before[moved] = newBefore; after[moved] = newAfter;
    if (newBefore !== n) after[newBefore] = moved;
    if (newAfter !== n) before[newAfter] = moved;
  }

  function forbid(u: number, v: number, isBack: boolean): void {
    const until = moves + tenure + random.below(tenure + 1);
    if (isBack) for (let o = before[v]!; ; o = before[o]!) { tabuUntil[o * n + v] = until; if (o === u) return; }
    for (let o = after[u]!; ; o = after[o]!) { tabuUntil[u * n + o] = until; if (o === v) return; }
  }

  function move(): boolean {
    const length = tracePath();
    pickedScore = 2 ** 30; ties = 0; spares = 0;
    let first = 0;
    for (let i = 1; i <= length; i += 1) {
      if (i < length && altPlace[path[i]!] === altPlace[path[first]!]) continue;
      if (i - first > 1) offerBlock(first, i - 1, first === 0, i === length);
      first = i;
    }
    if (spares === 0) return false;
    const [u, v, isBack] = pickedScore < 2 ** 30 ? [pickedFrom, pickedTo, pickedBack] : [spareFrom, spareTo, spareBack];
    moves += 1;
    const neighbour = isBack ? before[v]! : after[u]!;
    forbid(u, v, isBack);
    place(u, v, isBack);
    if (time()) { keep(); return true; }
    // Operations of no duration can close a circle: put it back where it was.
    undo(u, v, isBack, neighbour);
    time();
    return true;
  }

  /** `neighbour`: who stood before v (moved back) or after u (moved forward). */
  function undo(u: number, v: number, isBack: boolean, neighbour: number): void {
    if (isBack) place(v, neighbour, false);
    else place(neighbour, u, true);
  }

  return { begin, move, ticks: () => ticks, bestTicks: () => bestTicks, bestOrder, movesSinceBest: () => moves - bestMove };
}
