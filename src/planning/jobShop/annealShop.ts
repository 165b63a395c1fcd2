import { startRandom } from '../../science/seededRandom.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';

const NONE = 2 ** 30;

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi 1983) on one sequence of all operations, with a chosen alternative and
 * vehicle for each: every sequence decodes into a plan in which each move and operation is as early as what came before
 * allows. Runs are restarted with twice the steps, up to 64 times the first. One step is one plan tried.
 */
export function annealShop(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const { count, jobs, jobOf, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const { operationTail, longestJob } = jobPaths(model);
  const sequence = Int32Array.from(jobOf);
  const alternative = new Int32Array(count);
  const vehicle = new Int32Array(count);
  const next = new Int32Array(jobs), at = new Int32Array(jobs), ready = new Int32Array(jobs);
  const placeFree = new Int32Array(places), vehicleFree = new Int32Array(Math.max(1, vehicles)), vehicleAt = new Int32Array(vehicleFree.length);
  let bestTicks = NONE, bestOrder: ShopOrder | undefined;
  let current = NONE, step = 0, length = 0, run = 0, temperature = 0, cooling = 1;
  const choices = Int32Array.from({ length: count }, (_, o) => o).filter((o) => altFirst[o + 1]! - altFirst[o]! > 1);
  const vehicleShare = vehicles > 1 ? 0.3 : 0;
  const choiceShare = choices.length === 0 ? 0 : 0.25;
  const reach = Math.max(3, Math.min(count - 1, Math.round(count / 3)));

  /** Makespan of the sequence, or NONE as soon as it is sure to exceed the limit. */
  function decode(limit: number): number {
    next.fill(0); ready.fill(0); at.fill(startPlace); placeFree.fill(0); vehicleFree.fill(0); vehicleAt.fill(startPlace);
    let makespan = 0;
    for (let i = 0; i < count; i += 1) {
      const j = sequence[i]!;
      const o = jobFirst[j]! + next[j]!++;
      const a = alternative[o]!;
      const to = altPlace[a]!, from = at[j]!;
      let start = ready[j]!;
      if (from !== to && vehicles > 0) {
        const v = vehicle[o]!;
        const there = vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!;
        if (there > start) start = there;
        start += travel[from * places + to]!;
        vehicleFree[v] = start; vehicleAt[v] = to;
      }
      if (placeFree[to]! > start) start = placeFree[to]!;
      const end = start + altTicks[a]!;
      if (end + operationTail[o]! > limit) return NONE;
      placeFree[to] = end; ready[j] = end; at[j] = to;
      if (end > makespan) makespan = end;
    }
    return makespan;
  }

  function restart(): void {
    for (let i = count - 1; i > 0; i -= 1) { const k = random.below(i + 1); const swap = sequence[i]!; sequence[i] = sequence[k]!; sequence[k] = swap; }
    for (let o = 0; o < count; o += 1) {
      alternative[o] = altFirst[o]! + random.below(altFirst[o + 1]! - altFirst[o]!);
      vehicle[o] = random.below(Math.max(1, vehicles));
    }
    current = decode(NONE);
    keep(current);
    length = 100_000 * 2 ** Math.min(run, 6) * Math.max(1, count / 40);
    const hot = (run & 1) === 0 ? 0.03 : 0.015;
    temperature = hot * Math.max(longestJob, 1);
    cooling = 0.05 ** (1 / length);
    step = 0;
    run += 1;
  }

  function keep(ticks: number): void {
    if (ticks >= bestTicks) return;
    bestTicks = ticks;
    bestOrder = { tokens: tokensOf(), alternative: alternative.slice(), vehicle: vehicle.slice() };
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
      vehicle[o] = (before + 1 + random.below(vehicles - 1)) % vehicles;
      settle(decode(limit), () => { vehicle[o] = before; });
    } else if (kind < vehicleShare + choiceShare) {
      const o = choices[random.below(choices.length)]!, before = alternative[o]!;
      const others = altFirst[o + 1]! - altFirst[o]!;
      alternative[o] = altFirst[o]! + (before - altFirst[o]! + 1 + random.below(others - 1)) % others;
      settle(decode(limit), () => { alternative[o] = before; });
    } else {
      const from = random.below(count);
      const to = Math.max(0, Math.min(count - 1, from + (random.uniform() < 0.5 ? -1 : 1) * (1 + random.below(reach))));
      if (from === to) return;
      shift(from, to);
      settle(decode(limit), () => shift(to, from));
    }
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
