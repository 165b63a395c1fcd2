import { startRandom } from '../../science/seededRandom.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';

const NONE = 2 ** 30;
const OPEN = -1;
const HOT = 0.03, COLD = 0.006;
const FIRST_RUN = 50_000;

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi 1983) on one sequence of all operations. For each operation the alternative and the vehicle are
 * either named or left to the moment: then the one that ends first is taken, and of vehicles that are there in time the one that was free last. Every sequence
 * decodes into a plan in which each move and operation is as early as what came before allows. Runs are repeated, up to 32 times as long as the first.
 * One step is one plan tried.
 */
export function annealShop(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const { count, jobs, jobOf, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const { operationTail, longestJob } = jobPaths(model);
  const sequence = Int32Array.from(jobOf);
  // What is named, or OPEN.
  const alternative = new Int32Array(count), vehicle = new Int32Array(count);
  // What was taken.
  const taken = new Int32Array(count), taker = new Int32Array(count);
  const next = new Int32Array(jobs), at = new Int32Array(jobs), ready = new Int32Array(jobs);
  const placeFree = new Int32Array(places), vehicleFree = new Int32Array(Math.max(1, vehicles)), vehicleAt = new Int32Array(vehicleFree.length);
  let bestTicks = NONE, bestOrder: ShopOrder | undefined;
  let current = NONE, step = 0, length = 0, run = 0, temperature = 0, cooling = 1;
  const choices = Int32Array.from({ length: count }, (_, o) => o).filter((o) => altFirst[o + 1]! - altFirst[o]! > 1);
  const vehicleShare = vehicles > 1 ? 0.2 : 0;
  const choiceShare = choices.length === 0 ? 0 : 0.25;
  const reach = Math.max(3, Math.min(count - 1, Math.round(count / 3)));

  /** Who carries the job away from `from`, where it is ready then. */
  function pickVehicle(o: number, from: number, ready: number): number {
    if (vehicle[o] !== OPEN) return vehicle[o]!;
    let pick = 0, least = NONE, free = -1;
    for (let v = 0; v < vehicles; v += 1) {
      let there = vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!;
      if (there < ready) there = ready;
      if (there < least || (there === least && vehicleFree[v]! > free)) { least = there; free = vehicleFree[v]!; pick = v; }
    }
    return pick;
  }

  /** Makespan of the sequence, or NONE as soon as it is sure to exceed the limit. */
  function decode(limit: number): number {
    next.fill(0); ready.fill(0); at.fill(startPlace); placeFree.fill(0); vehicleFree.fill(0); vehicleAt.fill(startPlace);
    let makespan = 0;
    for (let i = 0; i < count; i += 1) {
      const j = sequence[i]!;
      const o = jobFirst[j]! + next[j]!++;
      const from = at[j]!, there = ready[j]!;
      const v = vehicles > 0 ? pickVehicle(o, from, there) : 0;
      const empty = vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!;
      const depart = empty > there ? empty : there;
      const named = alternative[o]!;
      const first = named === OPEN ? altFirst[o]! : named, last = named === OPEN ? altFirst[o + 1]! : named + 1;
      let end = NONE, a = first;
      for (let option = first; option < last; option += 1) {
        const to = altPlace[option]!;
        let start = from === to || vehicles === 0 ? there : depart + travel[from * places + to]!;
        if (placeFree[to]! > start) start = placeFree[to]!;
        if (start + altTicks[option]! < end) { end = start + altTicks[option]!; a = option; }
      }
      if (end + operationTail[o]! > limit) return NONE;
      const to = altPlace[a]!;
      if (from !== to && vehicles > 0) { vehicleFree[v] = depart + travel[from * places + to]!; vehicleAt[v] = to; }
      placeFree[to] = end; ready[j] = end; at[j] = to; taken[o] = a; taker[o] = v;
      if (end > makespan) makespan = end;
    }
    return makespan;
  }

  function restart(): void {
    for (let i = count - 1; i > 0; i -= 1) { const k = random.below(i + 1); const swap = sequence[i]!; sequence[i] = sequence[k]!; sequence[k] = swap; }
    for (let o = 0; o < count; o += 1) {
      alternative[o] = altFirst[o + 1]! - altFirst[o]! < 2 ? altFirst[o]! : OPEN;
      vehicle[o] = vehicles === 1 ? 0 : OPEN;
    }
    current = decode(NONE);
    keep(current);
    length = FIRST_RUN * 2 ** Math.min(run, 5) * Math.max(1, count / 40);
    temperature = HOT * Math.max(longestJob, 1);
    cooling = (COLD / HOT) ** (1 / length);
    step = 0;
    run += 1;
  }

  function keep(ticks: number): void {
    if (ticks >= bestTicks) return;
    bestTicks = ticks;
    bestOrder = { tokens: tokensOf(), alternative: taken.slice(), vehicle: taker.slice() };
  }

  function tokensOf(): Int32Array {
    const tokens = new Int32Array(2 * count);
    next.fill(0);
    sequence.forEach((j, i) => { const o = jobFirst[j]! + next[j]!++; tokens[2 * i] = 2 * o; tokens[2 * i + 1] = 2 * o + 1; });
    return tokens;
  }

  function shift(from: number, to: number): void {
    const moved = sequence[from]!;
    if (from < to) sequence.copyWithin(from, from + 1, to + 1);
    else sequence.copyWithin(to + 1, to, from);
    sequence[to] = moved;
  }

  function tryOne(): void {
    step += 1;
    temperature *= cooling;
    const limit = current - temperature * Math.log(1 - random.uniform());
    const kind = random.uniform();
    if (kind < vehicleShare) {
      const o = random.below(count), before = vehicle[o]!;
      vehicle[o] = another(before, 0, vehicles);
      settle(decode(limit), () => { vehicle[o] = before; });
    } else if (kind < vehicleShare + choiceShare) {
      const o = choices[random.below(choices.length)]!, before = alternative[o]!;
      alternative[o] = another(before, altFirst[o]!, altFirst[o + 1]!);
      settle(decode(limit), () => { alternative[o] = before; });
    } else {
      const from = random.below(count);
      const to = Math.max(0, Math.min(count - 1, from + (random.uniform() < 0.5 ? -1 : 1) * (1 + random.below(reach))));
      if (from === to) return;
      shift(from, to);
      settle(decode(limit), () => shift(to, from));
    }
  }

  /** One of the numbers from first to below end, or OPEN, but not the one before. */
  function another(before: number, first: number, end: number): number {
    const pick = first - 1 + random.below(end - first);
    const other = before === OPEN || pick < before ? pick : pick + 1;
    return before === OPEN ? other + 1 : other < first ? OPEN : other;
  }

  function settle(ticks: number, undo: () => void): void {
    if (ticks === NONE) { undo(); return; }
    current = ticks;
    keep(ticks);
  }

  return {
    run(steps, isStopped) {
      if (count === 0) return;
      for (let i = 0; i < steps; i += 1) {
        if ((i & 1023) === 0 && isStopped()) return;
        if (step >= length) restart();
        else tryOne();
      }
    },
    best: () => (bestOrder === undefined ? undefined : { ticks: bestTicks, order: bestOrder }),
    boundTicks: () => 0,
    hearOf: () => undefined,
    isFinished: () => count === 0,
  };
}
