import { startRandom } from '../../science/seededRandom.ts';
import { bufferFloor } from './bufferFloor.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';

const OPEN = -1;
const HOT = 0.06, COLD = 0.004;
const FIRST_RUN = 20_000;

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi 1983) with finite waiting places, on one sequence of all steps (a job is brought, an operation runs). A step that
 * is not possible yet waits for the first moment at which it is; a sequence in which all that is left waits for each other is not taken. One job after
 * the other never locks, since jobs wait without limit where they start. One step is one plan tried.
 */
export function annealBuffered(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const { count, jobs, jobOf, jobFirst, altFirst, altTicks, altPlace, startPlace, vehicles } = model;
  const floor = bufferFloor(model, altTicks, model.travel);
  const { longestJob, operationTail } = jobPaths(model);
  const size = 2 * count, reach = Math.max(3, Math.round(size / 4));
  const sequence = new Int32Array(size), next = new Int32Array(jobs), behind = new Int32Array(jobs), waiting = new Int32Array(jobs + 1), tokens = new Int32Array(size);
  const alternative = new Int32Array(count), vehicle = new Int32Array(count), carrier = new Int32Array(count), makesWay = new Uint8Array(count);
  const often = count > 300 ? 0 : 63;
  let best: { ticks: number; order: ShopOrder } | undefined;
  let [current, step, length, run, temperature, cooling, done, makespan, waits] = [Infinity, 0, 0, 0, 0, 1, 0, 0, 0];

  /** The job's next step, if it is possible. */
  function take(j: number): boolean {
    const token = 2 * jobFirst[j]! + next[j]!, o = token >> 1;
    if ((token & 1) === 1 ? !floor.run(o) : !floor.carry(o, alternative[o]!, carrier[o] = pick(o), makesWay[o] === 1)) return false;
    tokens[done++] = token;
    if ((token & 1) === 1 && floor.end[o]! + operationTail[o]! > makespan) makespan = floor.end[o]! + operationTail[o]!;
    next[j]! += 1;
    return true;
  }

  function pick(o: number): number {
    if (vehicle[o] !== OPEN) return vehicle[o]!;
    const isFirst = o === jobFirst[jobOf[o]!];
    const from = isFirst ? startPlace : altPlace[alternative[o - 1]!]!, ready = isFirst ? 0 : floor.end[o - 1]!;
    let first = 0;
    for (let v = 1; v < vehicles; v += 1) if (floor.pickUp(v, from, ready) < floor.pickUp(first, from, ready)) first = v;
    return first;
  }

  /** Makespan of the sequence, or Infinity where it locks or is sure to exceed the limit. */
  function decode(limit: number): number {
    floor.clear();
    next.fill(0); behind.fill(0);
    done = makespan = waits = 0;
    for (let i = 0; i < size; i += 1) {
      const j = sequence[i]!, places = floor.leaves(), earlier = behind[j]!;
      if (earlier > 0 || !take(j)) { if (earlier === 0) waiting[waits++] = j; behind[j] = earlier + 1; continue; }
      if (floor.leaves() > places) goOn();
      if (makespan > limit) return Infinity;
    }
    return waits > 0 ? Infinity : makespan;
  }

  /** Somebody left a place: whoever waits longest and can go on now does. */
  function goOn(): void {
    for (let k = 0; k < waits; k += 1) {
      const j = waiting[k]!;
      if (!take(j)) continue;
      const later = behind[j]! - 1;
      behind[j] = later;
      if (later === 0) { waiting.copyWithin(k, k + 1, waits); waits -= 1; }
      k = -1;
    }
  }

  /** Of sequences with fewer and fewer jobs on their way at once the shortest that does not lock; with one at a time none does. */
  function begin(): void {
    let shortest = Infinity;
    const kept = new Int32Array(size);
    for (let most = jobs; most >= 1; most = Math.min(most - 1, Math.floor(0.7 * most))) {
      for (let trial = most === 1 ? 1 : 3; trial > 0; trial -= 1) {
        release(most);
        const ticks = decode(shortest);
        if (ticks < shortest) { shortest = ticks; kept.set(sequence); }
      }
    }
    sequence.set(kept);
    current = decode(Infinity);
  }

  /** Jobs in a random turn, so many on their way at once; each brings one step after the other. */
  function release(most: number): void {
    const turn = Array.from({ length: jobs }, (_, j) => ({ j, luck: random.uniform() })).sort((a, b) => a.luck - b.luck).map(({ j }) => j);
    const left = Int32Array.from({ length: jobs }, (_, j) => 2 * (jobFirst[j + 1]! - jobFirst[j]!));
    const active = turn.splice(0, most);
    for (let i = 0; i < size; i += 2) {
      const k = random.below(active.length), j = active[k]!;
      sequence[i] = sequence[i + 1] = j;
      left[j]! -= 2;
      if (left[j]! > 0) continue;
      const fresh = turn.shift();
      if (fresh === undefined) active.splice(k, 1); else active[k] = fresh;
    }
  }

  function restart(): void {
    for (let o = 0; o < count; o += 1) alternative[o] = altFirst[o]! + random.below(altFirst[o + 1]! - altFirst[o]!);
    vehicle.fill(vehicles === 1 ? 0 : OPEN);
    makesWay.fill(1);
    begin();
    keep();
    length = FIRST_RUN * 2 ** Math.min(run, 6) * Math.max(1, count / 30);
    temperature = HOT * Math.max(longestJob, 1);
    cooling = (COLD / HOT) ** (1 / length);
    step = 0;
    run += 1;
  }

  function keep(): void {
    if (best !== undefined && current >= best.ticks) return;
    best = { ticks: current, order: { tokens: tokens.slice(), alternative: alternative.slice(), vehicle: carrier.slice(), makesWay: makesWay.slice() } };
  }

  function shift(from: number, to: number): void {
    const moved = sequence[from]!;
    if (from < to) sequence.copyWithin(from, from + 1, to + 1);
    else sequence.copyWithin(to + 1, to, from);
    sequence[to] = moved;
  }

  function settle(undo: () => void): void {
    const limit = current - temperature * Math.log(1 - random.uniform());
    const ticks = decode(limit);
    if (ticks > limit) { undo(); return; }
    current = ticks;
    keep();
  }

  function tryOne(): void {
    step += 1;
    temperature *= cooling;
    const kind = random.uniform(), o = random.below(count);
    if (kind < 0.1 && vehicles > 1) {
      const before = vehicle[o]!;
      vehicle[o] = random.below(vehicles + 1) - 1;
      settle(() => { vehicle[o] = before; });
    } else if (kind < 0.3 && altFirst[o + 1]! - altFirst[o]! > 1) {
      const before = alternative[o]!;
      alternative[o] = altFirst[o]! + random.below(altFirst[o + 1]! - altFirst[o]!);
      settle(() => { alternative[o] = before; });
    } else if (kind < 0.35) {
      makesWay[o]! ^= 1;
      settle(() => { makesWay[o]! ^= 1; });
    } else {
      const from = random.below(size), to = Math.max(0, Math.min(size - 1, from + (random.uniform() < 0.5 ? -1 : 1) * (1 + random.below(reach))));
      if (from === to || sequence[from] === sequence[to]) return;
      shift(from, to);
      settle(() => shift(to, from));
    }
  }

  return {
    run(steps, isStopped) {
      if (count === 0) return;
      for (let i = 0; i < steps; i += 1) {
        if ((i & often) === 0 && isStopped() && best !== undefined) return;
        if (step >= length) restart();
        else tryOne();
      }
    },
    best: () => best,
    boundTicks: () => 0,
    hearOf: () => undefined,
    isFinished: () => count === 0,
  };
}
