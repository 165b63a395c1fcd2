import type { RandomStream } from '../../science/seededRandom.ts';
import type { ShopModel } from './shopModel.ts';

/** One walk of tabu search over the orders of all machines, and over who works on which. */
export interface TabuWalk {
  /** Begins anew at an order of all operations that keeps every job's own order, and an alternative for each. */
  readonly begin: (order: Int32Array, alternative: Int32Array) => void;
  /** One move. False where there is none: without alternatives the longest path has no block then, so that the plan is the shortest. */
  readonly move: () => boolean;
  readonly ticks: () => number;
  /** Shortest since it began, an order of all operations and the alternatives that give it, and how many moves ago it was found. */
  readonly bestTicks: () => number;
  readonly bestOrder: Int32Array;
  readonly bestAlternative: Int32Array;
  readonly movesSinceBest: () => number;
}

const NONE = 2 ** 30;

/**
 * Tabu search for the job shop where moves take no time. Neighbours: on one longest path, chosen at random,
 * an operation of a block goes right behind its last or before its first, and the first and the last go inside (N6 of Balas & Vazacopoulos 1998, Management
 * Science 44:262-275, N7 of Zhang et al. 2007, Computers & Operations Research 34:3229-3242), where their conditions exclude a circle; judged by their
 * estimate, which recomputes heads and tails of the operations between only. Where an operation of the path has other machines, it goes to every place
 * in their orders at which no circle can close, judged by the longest path through it there (after Mastrolilli & Gambardella 2000, Journal of Scheduling
 * 3:3-20, with heads and tails as they are before the move). An order of two operations that was given up, or a machine that was left, must not come back for a
 * while, unless that would beat the best.
 */
export function tabuMachines(model: ShopModel, random: RandomStream): TabuWalk {
  const { count: n, jobOf, jobFirst, altFirst, altPlace, altTicks, places } = model;
  const d = new Int32Array(n + 1), at = new Int32Array(n), alternative = new Int32Array(n);
  const jobBefore = new Int32Array(n + 1).fill(n), jobAfter = new Int32Array(n + 1).fill(n);
  for (let o = 0; o < n; o += 1) {
    if (o > jobFirst[jobOf[o]!]!) jobBefore[o] = o - 1;
    if (o + 1 < jobFirst[jobOf[o]! + 1]!) jobAfter[o] = o + 1;
  }
  // n stands for "none" and has no head, no tail and no duration.
  const before = new Int32Array(n + 1).fill(n), after = new Int32Array(n + 1).fill(n);
  const head = new Int32Array(n + 1), tail = new Int32Array(n + 1);
  const open = new Int32Array(n + 1), order = new Int32Array(n), bestOrder = new Int32Array(n), bestAlternative = new Int32Array(n), path = new Int32Array(n), first = new Int32Array(places), last = new Int32Array(places);
  const newHead = new Int32Array(n), newTail = new Int32Array(n), segment = new Int32Array(n);
  const tabuUntil = new Int32Array(n * n), placeTabuUntil = new Int32Array(n * places);
  const hasChoices = altPlace.length > n;
  // Where there are other machines to go to, orders are soon good for another try.
  const tenure = Math.round((hasChoices ? 0.5 : 1) * (10 + model.jobs / Math.max(1, places)));
  let [ticks, bestTicks, moves, bestMove] = [0, 0, 0, 0];
  let [pickedFrom, pickedTo, pickedBack, pickedScore, ties] = [0, 0, false, 0, 0];
  let [spareFrom, spareTo, spareBack, spares] = [0, 0, false, 0];
  // Alternative to go to, -1 where the machine stays; then `from` is who moves, `to` whom it goes behind, or n.
  let [pickedAlternative, spareAlternative] = [-1, -1];

  function begin(given: Int32Array, chosen: Int32Array): void {
    first.fill(n); last.fill(n);
    for (const o of given) {
      choose(o, chosen[o]!);
      link(o, last[at[o]!]!);
    }
    before[n] = after[n] = n;
    tabuUntil.fill(0); placeTabuUntil.fill(0);
    moves = bestMove = 0;
    bestTicks = NONE;
    time();
    keep();
  }

  function choose(o: number, a: number): void {
    alternative[o] = a;
    at[o] = altPlace[a]!;
    d[o] = altTicks[a]!;
  }

  /** Into the order of its machine behind another one, or first behind none. */
  function link(o: number, behind: number): void {
    const next = behind === n ? first[at[o]!]! : after[behind]!;
    before[o] = behind; after[o] = next;
    if (behind === n) first[at[o]!] = o; else after[behind] = o;
    if (next === n) last[at[o]!] = o; else before[next] = o;
  }

  function unlink(o: number): void {
    const [b, a] = [before[o]!, after[o]!];
    if (b === n) first[at[o]!] = a; else after[b] = a;
    if (a === n) last[at[o]!] = b; else before[a] = b;
  }

  function keep(): void {
    if (ticks >= bestTicks) return;
    bestTicks = ticks;
    bestMove = moves;
    bestOrder.set(order);
    bestAlternative.set(alternative);
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
    if (random.below(++spares) === 0) { spareFrom = u; spareTo = v; spareBack = isBack; spareAlternative = -1; }
    if (score > pickedScore || (score >= bestTicks && isTabu(u, v, isBack))) return;
    ties = score === pickedScore ? ties + 1 : 1;
    if (ties > 1 && random.below(ties) !== 0) return;
    pickedScore = score; pickedFrom = u; pickedTo = v; pickedBack = isBack; pickedAlternative = -1;
  }

  /** Every place in the order of another machine. */
  function offerElsewhere(o: number, a: number): void {
    const to = altPlace[a]!, ticks = altTicks[a]!, j = jobAfter[o]!, p = jobBefore[o]!;
    const ownHead = head[p]! + d[p]!, ownTail = tail[j]! + d[j]!, reach = j === n ? NONE : head[j]! + d[j]!;
    const isForbidden = placeTabuUntil[o * places + to]! > moves;
    for (let x = n, y = first[to]!; ; x = y, y = after[y]!) {
      if (x !== n && head[x]! >= reach) return;
      const front = head[x]! + d[x]!, back = tail[y]! + d[y]!;
      if (front + ticks + ownTail > pickedScore && spares > 0) return;
      if (y === n || p === n || head[y]! + d[y]! > head[p]!) {
        const score = (front > ownHead ? front : ownHead) + ticks + (back > ownTail ? back : ownTail);
        if (random.below(++spares) === 0) { spareFrom = o; spareTo = x; spareAlternative = a; }
        if (score <= pickedScore && (score < bestTicks || !isForbidden)) {
          ties = score === pickedScore ? ties + 1 : 1;
          if (ties === 1 || random.below(ties) === 0) { pickedScore = score; pickedFrom = o; pickedTo = x; pickedAlternative = a; }
        }
      }
      if (y === n) return;
    }
  }

  function isTabu(u: number, v: number, isBack: boolean): boolean {
    if (isBack) { for (let o = before[v]!; ; o = before[o]!) { if (tabuUntil[v * n + o]! > moves) return true; if (o === u) return false; } }
    for (let o = after[u]!; ; o = after[o]!) { if (tabuUntil[o * n + u]! > moves) return true; if (o === v) return false; }
  }

  function offerBlock(start: number, end: number, isPathStart: boolean, isPathEnd: boolean): void {
    const [head0, last0] = [path[start]!, path[end]!];
    if (!isPathEnd) for (let i = start; i < end; i += 1) offer(path[i]!, last0, false);
    if (!isPathStart && (isPathEnd || end > start + 1)) for (let i = start + 1; i <= end; i += 1) offer(head0, path[i]!, true);
    for (let i = start + 1; i < end; i += 1) {
      if (!isPathStart) offer(head0, path[i]!, false);
      if (!isPathEnd) offer(path[i]!, last0, true);
    }
  }

  function place(u: number, v: number, isBack: boolean): void {
    const moved = isBack ? v : u, behind = isBack ? before[u]! : v;
    unlink(moved);
    link(moved, behind);
  }

  function forbid(u: number, v: number, isBack: boolean): void {
    const until = moves + tenure + random.below(tenure + 1);
    if (isBack) for (let o = before[v]!; ; o = before[o]!) { tabuUntil[o * n + v] = until; if (o === u) return; }
    for (let o = after[u]!; ; o = after[o]!) { tabuUntil[u * n + o] = until; if (o === v) return; }
  }

  function move(): boolean {
    const length = tracePath();
    pickedScore = NONE; ties = 0; spares = 0;
    let block = 0;
    for (let i = 1; i <= length; i += 1) {
      if (i < length && at[path[i]!] === at[path[block]!]) continue;
      if (i - block > 1) offerBlock(block, i - 1, block === 0, i === length);
      block = i;
    }
    if (hasChoices) {
      for (let i = 0; i < length; i += 1) {
        const o = path[i]!;
        for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) if (a !== alternative[o]) offerElsewhere(o, a);
      }
    }
    if (spares === 0) return false;
    moves += 1;
    const isPicked = pickedScore < NONE, a = isPicked ? pickedAlternative : spareAlternative;
    const [u, v, isBack] = isPicked ? [pickedFrom, pickedTo, pickedBack] : [spareFrom, spareTo, spareBack];
    if (a >= 0) takeElsewhere(u, v, a);
    else takeInBlock(u, v, isBack);
    return true;
  }

  function takeElsewhere(o: number, behind: number, a: number): void {
    const [own, wasBehind] = [alternative[o]!, before[o]!];
    placeTabuUntil[o * places + at[o]!] = moves + 2 + random.below(4);
    unlink(o);
    choose(o, a);
    link(o, behind);
    if (time()) { keep(); return; }
    unlink(o);
    choose(o, own);
    link(o, wasBehind);
    time();
  }

  function takeInBlock(u: number, v: number, isBack: boolean): void {
    const neighbour = isBack ? before[v]! : after[u]!;
    forbid(u, v, isBack);
    place(u, v, isBack);
    if (time()) { keep(); return; }
    // Operations of no duration can close a circle: put it back where it was.
    undo(u, v, isBack, neighbour);
    time();
  }

  /** `neighbour`: who stood before v (moved back) or after u (moved forward). */
  function undo(u: number, v: number, isBack: boolean, neighbour: number): void {
    if (isBack) place(v, neighbour, false);
    else place(neighbour, u, true);
  }

  return { begin, move, ticks: () => ticks, bestTicks: () => bestTicks, bestOrder, bestAlternative, movesSinceBest: () => moves - bestMove };
}
