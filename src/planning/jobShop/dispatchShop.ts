import type { RandomStream } from '../../science/seededRandom.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/**
 * A first plan: again and again, of the jobs whose next operation could begin before any could end, the one with most left goes next (active
 * schedules: Giffler & Thompson 1960, Operations Research 8:487-503), where it ends first, with the vehicle that is there first; all with some luck. `chosen`: the alternatives, where they are chosen already.
 */
export function dispatchShop(model: ShopModel, random: RandomStream, chosen?: Int32Array): ShopOrder {
  const { count, jobs, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace, vehicles } = model;
  const { operationTail } = jobPaths(model);
  const placeFree = new Int32Array(places), vehicleFree = new Int32Array(Math.max(1, vehicles)), vehicleAt = new Int32Array(vehicleFree.length).fill(startPlace);
  const next = Int32Array.from(jobFirst.subarray(0, jobs)), at = new Int32Array(jobs).fill(startPlace), ready = new Int32Array(jobs);
  const luck = Float64Array.from({ length: jobs }, () => 0.6 + 0.8 * random.uniform());
  const order: ShopOrder = { tokens: new Int32Array(2 * count), alternative: new Int32Array(count), vehicle: new Int32Array(count) };
  const begin = new Int32Array(jobs), end = new Int32Array(jobs), choice = new Int32Array(jobs), carrier = new Int32Array(jobs);

  /** When, where and with whom the job's next operation would be done now. */
  function look(j: number): void {
    const o = next[j]!, from = at[j]!, there = ready[j]!;
    let v = 0, pickUp = vehicles > 0 ? 2 ** 30 : there;
    for (let k = 0; k < vehicles; k += 1) {
      const arrival = Math.max(there, vehicleFree[k]! + travel[vehicleAt[k]! * places + from]!);
      if (arrival < pickUp || (arrival === pickUp && vehicleFree[k]! > vehicleFree[v]!)) { pickUp = arrival; v = k; }
    }
    carrier[j] = v;
    end[j] = 2 ** 30;
    const [first, last] = chosen === undefined ? [altFirst[o]!, altFirst[o + 1]!] : [chosen[o]!, chosen[o]! + 1];
    for (let a = first; a < last; a += 1) {
      const to = altPlace[a]!;
      const start = Math.max(placeFree[to]!, from === to || vehicles === 0 ? there : pickUp + travel[from * places + to]!);
      const done = start + altTicks[a]!;
      if (done < end[j]! || (done === end[j] && random.below(2) === 0)) { end[j] = done; begin[j] = start; choice[j] = a; }
    }
  }

  for (let i = 0; i < count; i += 1) {
    let earliest = 2 ** 30, pick = -1, most = -1;
    for (let j = 0; j < jobs; j += 1) if (next[j]! < jobFirst[j + 1]!) { look(j); if (end[j]! < earliest) earliest = end[j]!; }
    for (let j = 0; j < jobs; j += 1) {
      if (next[j] === jobFirst[j + 1] || begin[j]! > earliest || (begin[j] === earliest && end[j]! > earliest)) continue;
      const left = (operationTail[next[j]!]! + end[j]! - begin[j]!) * luck[j]!;
      if (left > most) { most = left; pick = j; }
    }
    take(pick, i);
  }
  return order;

  function take(j: number, i: number): void {
    const o = next[j]!, a = choice[j]!, to = altPlace[a]!, v = carrier[j]!;
    if (vehicles > 0 && to !== at[j]) {
      const pickUp = Math.max(ready[j]!, vehicleFree[v]! + travel[vehicleAt[v]! * places + at[j]!]!);
      vehicleFree[v] = pickUp + travel[at[j]! * places + to]!;
      vehicleAt[v] = to;
    }
    order.tokens[2 * i] = 2 * o; order.tokens[2 * i + 1] = 2 * o + 1;
    order.alternative[o] = a; order.vehicle[o] = v;
    placeFree[to] = ready[j] = end[j]!;
    at[j] = to;
    next[j] = o + 1;
  }
}
