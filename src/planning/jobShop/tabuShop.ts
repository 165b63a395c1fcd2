import type { RandomStream } from '../../science/seededRandom.ts';
import { shopGraph } from './shopGraph.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/** One walk of tabu search over plans with alternatives and vehicles. */
export interface ShopWalk {
  readonly begin: (order: ShopOrder) => void;
  /** One move. Returns its work in visits of nodes; 0 where there is none to make. */
  readonly move: () => number;
  /** Shortest since it began. */
  readonly bestTicks: () => number;
  readonly bestOrder: () => ShopOrder;
  readonly movesSinceBest: () => number;
}

const NONE = 2 ** 30;
/** Visits of nodes for one move at most, so that moves stay quick in a large shop. */
const MOST_WORK = 60_000;

/**
 * Tabu search on one longest path, chosen at random: an operation or a trip of it is taken out and put in anywhere else, an operation at any of its
 * alternatives and a trip with any vehicle, where no circle can close (insertion after Mastrolilli & Gambardella 2000, Journal of Scheduling 3:3-20; here also for
 * trips, with empty travel between them). The graph without the node is timed anew, so that the length after the move is exact but where
 * a trip appears that was not needed before. What left a line must not come back to it for a while, unless that would beat the best.
 */
export function tabuShop(model: ShopModel, random: RandomStream): ShopWalk {
  const graph = shopGraph(model);
  const { nodes, none, ticks, head, tail, jobBefore, jobAfter, before, after, lag, line, first, lines, alternative, order, position, latest, origin, target, unlink, link, choose, isNeeded } = graph;
  const { count: n, places, vehicles, altFirst, altPlace, travel } = model;
  // Heads and tails of the graph without what is being moved; they differ from the graph's own from one position on, and down from another.
  const freeHead = new Int32Array(nodes + 1), freeTail = new Int32Array(nodes + 1);
  let [headFrom, tailFrom, shortest] = [nodes, -1, 0];
  const path = new Int32Array(nodes), onPath = new Uint8Array(nodes + 1), tabuUntil = new Int32Array((nodes + 1) * lines);
  let [bestTicks, bestOrder, moves, bestMove, work] = [NONE, undefined as ShopOrder | undefined, 0, 0, 0];
  const picked = { node: none, alternative: 0, line: 0, behind: 0, score: NONE, through: NONE, ties: 0 };
  const spare = { ...picked };
  const gap = { line: -1, behind: none, through: NONE, head: 0, tail: 0 };

  function begin(given: ShopOrder): void {
    graph.load(given);
    tabuUntil.fill(0);
    moves = bestMove = 0;
    bestTicks = NONE;
    settle();
  }

  function settle(): void {
    freeHead.set(head); freeTail.set(tail);
    headFrom = nodes; tailFrom = -1;
    work += 3 * nodes;
    if (graph.makespan() >= bestTicks) return;
    bestTicks = graph.makespan();
    bestMove = moves;
    bestOrder = graph.save();
  }

  /** Heads from one position on, tails from another one down. */
  function retime(from: number, to: number): void {
    for (; headFrom < from; headFrom += 1) freeHead[order[headFrom]!] = head[order[headFrom]!]!;
    headFrom = from;
    shortest = latest[from]!;
    for (let i = from; i < nodes; i += 1) {
      const x = order[i]!, j = jobBefore[x]!, l = before[x]!;
      const viaJob = freeHead[j]! + ticks[j]!, viaLine = freeHead[l]! + ticks[l]! + lag[x]!;
      const h = viaJob > viaLine ? viaJob : viaLine;
      freeHead[x] = h;
      if (h + ticks[x]! > shortest) shortest = h + ticks[x]!;
    }
    for (; tailFrom > to; tailFrom -= 1) freeTail[order[tailFrom]!] = tail[order[tailFrom]!]!;
    tailFrom = to;
    for (let i = to; i >= 0; i -= 1) {
      const x = order[i]!, j = jobAfter[x]!, l = after[x]!;
      const viaJob = freeTail[j]! + ticks[j]!, viaLine = freeTail[l]! + ticks[l]! + lag[l]!;
      freeTail[x] = viaJob > viaLine ? viaJob : viaLine;
    }
    work += nodes - from + to;
  }

  /** The longest path from its end to its start; returns how many nodes. */
  function tracePath(): number {
    const makespan = graph.makespan();
    let x = none, seen = 0, length = 0;
    for (let i = nodes - 1; i >= 0; i -= 1) { const o = order[i]!, end = head[o]! + ticks[o]!; if (end === makespan && random.below(++seen) === 0) x = o; }
    onPath.fill(0);
    while (x !== none) {
      path[length++] = x;
      const j = jobBefore[x]!, l = before[x]!;
      const viaJobEnd = head[j]! + ticks[j]!, viaLineEnd = head[l]! + ticks[l]! + lag[x]!;
      const isJob = j !== none && viaJobEnd === head[x], isLine = l !== none && viaLineEnd === head[x];
      const viaLine = isLine && (!isJob || random.below(2) === 0);
      // 1: comes by its line, 2: leaves by its line.
      if (viaLine) { onPath[x]! |= 1; onPath[l]! |= 2; }
      x = viaLine ? l : isJob ? j : none;
    }
    return length;
  }

  function offer(node: number, a: number, to: number, behind: number, score: number, through: number): void {
    if (random.below(++spare.ties) === 0) { spare.node = node; spare.alternative = a; spare.line = to; spare.behind = behind; }
    if (score > picked.score || (score === picked.score && through > picked.through)) return;
    if (score >= bestTicks && tabuUntil[node * lines + to]! > moves) return;
    picked.ties = score === picked.score && through === picked.through ? picked.ties + 1 : 1;
    if (picked.ties > 1 && random.below(picked.ties) !== 0) return;
    picked.node = node; picked.alternative = a; picked.line = to; picked.behind = behind; picked.score = score; picked.through = through;
  }

  /** Every place in the line of a place for an operation that stands in none, where its own head and tail are at least so much. */
  function scanPlace(o: number, a: number, ownHead: number, ownTail: number, least: number, not: number): void {
    const to = altPlace[a]!, d = ticks[o]!, at = position[o]!, reach = freeHead[o]! + d, reachBack = freeTail[o]! + d;
    for (let x = none, y = first[to]!; ; x = y, y = after[y]!) {
      work += 1;
      const xEnd = freeHead[x]! + ticks[x]!;
      if (x !== none && position[x]! > at && freeHead[x]! >= reach) return;
      if (xEnd + d + ownTail > picked.score && spare.ties > 0) return;
      if (x !== not && (y === none || position[y]! > at || freeTail[y]! < reachBack)) {
        const yTail = ticks[y]! + freeTail[y]!;
        const through = (xEnd > ownHead ? xEnd : ownHead) + d + (yTail > ownTail ? yTail : ownTail);
        offer(o, a, to, x, through > least ? through : least, through);
      }
      if (y === none) return;
    }
  }

  /** The same for a trip with all vehicles; where `best` it is not offered, but the best gap noted. `least` < 0: only noted. */
  function scanVehicles(t: number, least: number, notLine: number, not: number): void {
    const at = position[t]!, d = ticks[t]!, ownHead = freeHead[t]!, ownTail = freeTail[t]!, reach = ownHead + d, reachBack = ownTail + d;
    const from = origin[t]!, to = target[t]! * places;
    gap.through = NONE;
    for (let v = places; v < lines; v += 1) {
      for (let x = none, y = first[v]!; ; x = y, y = after[y]!) {
        work += 1;
        if (x !== none && position[x]! > at && freeHead[x]! >= reach) break;
        const xEnd = freeHead[x]! + ticks[x]! + travel[target[x]! * places + from]!;
        if (least >= 0 && xEnd + d + ownTail > picked.score && spare.ties > 0) break;
        if ((x !== not || v !== notLine) && (y === none || position[y]! > at || freeTail[y]! < reachBack)) {
          const h = xEnd > ownHead ? xEnd : ownHead;
          const yTail = y === none ? 0 : travel[to + origin[y]!]! + ticks[y]! + freeTail[y]!;
          const q = yTail > ownTail ? yTail : ownTail;
          if (least >= 0) offer(t, 0, v, x, h + d + q > least ? h + d + q : least, h + d + q);
          else if (h + d + q < gap.through) { gap.through = h + d + q; gap.line = v; gap.behind = x; gap.head = h; gap.tail = q; }
        }
        if (y === none) break;
      }
    }
  }

  function offerTrip(t: number): void {
    const from = line[t]!, behind = before[t]!;
    unlink(t);
    retime(position[t]!, position[t]!);
    scanVehicles(t, shortest, from, behind);
    link(t, from, behind);
  }

  function offerOperation(o: number): void {
    const from = line[o]!, behind = before[o]!, own = alternative[o]!;
    unlink(o);
    for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
      if (a !== own) { offerAlternative(o, a, own); continue; }
      if (onPath[o] === 0) continue;
      retime(position[o]!, position[o]!);
      scanPlace(o, a, freeHead[o]!, freeTail[o]!, shortest, behind);
    }
    link(o, from, behind);
  }

  function offerAlternative(o: number, a: number, own: number): void {
    const into = n + o, out = jobAfter[o]!;
    const [intoLine, intoBehind, outLine, outBehind] = [vehicles > 0 ? line[into]! : -1, before[into]!, vehicles > 0 ? line[out]! : -1, before[out]!];
    choose(o, a);
    if (vehicles === 0) retime(position[o]!, position[o]!);
    else retime(position[into]!, position[out === none ? o : out]!);
    let ownHead = freeHead[o]!, ownTail = freeTail[o]!, least = shortest;
    if (vehicles > 0 && line[into]! < 0 && isNeeded(into)) {
      scanVehicles(into, -1, -1, none);
      if (gap.head + ticks[into]! > ownHead) ownHead = gap.head + ticks[into]!;
      if (gap.through > least) least = gap.through;
    }
    if (vehicles > 0 && out !== none && line[out]! < 0 && isNeeded(out)) {
      scanVehicles(out, -1, -1, none);
      if (gap.tail + ticks[out]! > ownTail) ownTail = gap.tail + ticks[out]!;
      if (gap.through > least) least = gap.through;
    }
    scanPlace(o, a, ownHead, ownTail, least, -1);
    choose(o, own);
    if (intoLine >= 0 && line[into]! < 0) link(into, intoLine, intoBehind);
    if (outLine >= 0 && line[out]! < 0) link(out, outLine, outBehind);
  }

  function apply({ node, alternative: a, line: to, behind }: typeof picked): void {
    const isOperation = node < n;
    tabuUntil[node * lines + line[node]!] = moves + tenure;
    unlink(node);
    if (isOperation && a !== alternative[node] && vehicles > 0) { bring(node, a); return; }
    if (isOperation) choose(node, a);
    link(node, to, behind);
    retimeAll();
  }

  /** To another alternative, with the trips that it then needs; each goes where it is best in the graph of that moment. */
  function bring(o: number, a: number): void {
    choose(o, a);
    retimeAll();
    for (const trip of [n + o, jobAfter[o]!]) {
      if (trip === none || line[trip]! >= 0 || !isNeeded(trip)) continue;
      scanVehicles(trip, -1, -1, none);
      link(trip, gap.line, gap.behind);
      retimeAll();
    }
    Object.assign(picked, { score: NONE, through: NONE, ties: 0 });
    spare.ties = 0;
    const until = bestTicks;
    bestTicks = NONE;
    scanPlace(o, a, freeHead[o]!, freeTail[o]!, 0, -1);
    bestTicks = until;
    link(o, picked.line, picked.behind);
    retimeAll();
  }

  function retimeAll(): void {
    if (!graph.time()) throw new Error('a move closed a circle');
    freeHead.set(head); freeTail.set(tail);
    headFrom = nodes; tailFrom = -1;
    work += 3 * nodes;
  }

  let tenure = 10;
  const isEnough = (): boolean => work > MOST_WORK;

  function move(): number {
    work = 0;
    const length = tracePath();
    Object.assign(picked, { score: NONE, through: NONE, ties: 0 });
    spare.ties = 0;
    tenure = 8 + random.below(8) + (length >> 2);
    const start = random.below(length);
    for (let i = 0; i < length; i += 1) {
      const x = path[(start + i) % length]!;
      if (isEnough()) break;
      if (x >= n) { if (onPath[x]! > 0 && line[x]! >= 0) offerTrip(x); }
      else if (onPath[x]! > 0 || altFirst[x + 1]! - altFirst[x]! > 1) offerOperation(x);
    }
    if (spare.ties === 0) return 0;
    moves += 1;
    apply(picked.score < NONE ? picked : spare);
    settle();
    return work;
  }

  return { begin, move, bestTicks: () => bestTicks, bestOrder: () => bestOrder!, movesSinceBest: () => moves - bestMove };
}
