import { startRandom } from '../../science/seededRandom.ts';
import { bufferFloor } from './bufferFloor.ts';
import { dispatchBuffered } from './dispatchBuffered.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';

const OPEN = -1;
const HOT = 0.06, COLD = 0.004;
const FIRST_RUN = 20_000;
/** Steps times operations in the first run at most; about two seconds. */
const FIRST_WORK = 2e7;
/** First plans that are built for a run, and operations in all of them at most. */
const TRIALS = 8, TRIED = 6000;
/** Above this many operations every run goes on from the best plan. */
const LARGE = 300;
/** Share of the moves that go to what the end of the plan waits for, in a large shop and in a small one. */
const CRITICAL = 0.7, CRITICAL_IN_SMALL = 0.2;
/** Farthest shift of a step in the sequence. */
const FARTHEST = 60;

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi 1983) with finite waiting places, on one sequence of all steps (a job is brought, an operation runs). A step that
 * is not possible yet waits for the first moment at which it is; a sequence in which all that is left waits for each other is not taken. The first plans are
 * built so that they never lock. One step is one plan tried.
 */
export function annealBuffered(model: ShopModel, seed: number): ShopSearch {
  const random = startRandom(seed);
  const { count, jobs, jobOf, jobFirst, altFirst, altTicks, altPlace, startPlace, vehicles } = model;
  const floor = bufferFloor(model, altTicks, model.travel);
  const { longestJob, operationTail } = jobPaths(model);
  const size = 2 * count, reach = Math.max(3, Math.min(FARTHEST, Math.round(size / 4)));
  const sequence = new Int32Array(size), bestSequence = new Int32Array(size), bestVehicle = new Int32Array(count), next = new Int32Array(jobs), behind = new Int32Array(jobs), waiting = new Int32Array(jobs + 1), tokens = new Int32Array(size), path = new Int32Array(count);
  const alternative = new Int32Array(count), vehicle = new Int32Array(count), carrier = new Int32Array(count), makesWay = new Uint8Array(count);
  const criticalShare = count > LARGE ? CRITICAL : CRITICAL_IN_SMALL;
  const often = count > 300 ? 0 : 63;
  let best: { ticks: number; order: ShopOrder } | undefined;
  let [current, step, length, run, temperature, cooling, done, makespan, waits, critical] = [Infinity, 0, 0, 0, 0, 1, 0, 0, 0, 0];

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
    return floor.firstVehicle(isFirst ? startPlace : altPlace[alternative[o - 1]!]!, isFirst ? 0 : floor.end[o - 1]!);
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

  /** A plan that never locks; where that cannot be said, one job after the other. */
  function dispatch(): void {
    const dispatched = dispatchBuffered(model, floor, random);
    alternative.set(dispatched?.alternative ?? altFirst.subarray(0, count));
    const turns = dispatched?.turns ?? jobOf;
    for (let i = 0; i < size; i += 1) sequence[i] = turns[i >> 1]!;
    vehicle.fill(vehicles === 1 ? 0 : OPEN);
    makesWay.fill(1);
    current = decode(Infinity);
    trace();
    keep();
  }

  /** In turns the best plan so far, from which it may go on, and the best of some new ones. */
  function restart(isStopped: () => boolean): void {
    const trials = run === 0 || (run % 2 === 0 && count <= LARGE) ? Math.max(1, Math.min(TRIALS, TRIED / count)) : 0;
    for (let trial = 0; trial < trials; trial += 1) {
      dispatch();
      if (isStopped()) break;
    }
    if (run % 2 === 1 || count > LARGE) recall();
    length = Math.min(FIRST_RUN * Math.max(1, count / 30), FIRST_WORK / count) * 2 ** Math.min(run - 1, 6);
    const hot = run === 0 || length < 100 * count ? 2 * COLD : HOT;
    temperature = hot * Math.max(longestJob, 1);
    cooling = (COLD / hot) ** (1 / length);
    step = 0;
    run += 1;
  }

  function recall(): void {
    sequence.set(bestSequence); alternative.set(best!.order.alternative); vehicle.set(bestVehicle); makesWay.set(best!.order.makesWay!);
    current = decode(Infinity);
    trace();
  }

  function keep(): void {
    if (best !== undefined && current >= best.ticks) return;
    bestSequence.set(sequence); bestVehicle.set(vehicle);
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
    trace();
    keep();
  }

  /** The operations that the plan of the last decoded sequence waits for, one after the other, from its end. */
  function trace(): void {
    let o = 0;
    for (let i = 1; i < count; i += 1) if (floor.end[i]! > floor.end[o]!) o = i;
    for (critical = 0; o >= 0 && critical < count; o = floor.cause[o]!) path[critical++] = o;
  }

  /** Where the job's step with this token stands in the sequence. */
  function standsAt(token: number): number {
    const j = jobOf[token >> 1]!;
    let left = token - 2 * jobFirst[j]!, i = 0;
    for (; ; i += 1) if (sequence[i] === j && left-- === 0) return i;
  }

  function tryOne(): void {
    step += 1;
    temperature *= cooling;
    const kind = random.uniform(), isCritical = critical > 0 && random.uniform() < criticalShare, o = isCritical ? path[random.below(critical)]! : random.below(count);
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
      const from = isCritical ? standsAt(2 * o + random.below(2)) : random.below(size), to = Math.max(0, Math.min(size - 1, from + (random.uniform() < 0.5 ? -1 : 1) * (1 + random.below(reach))));
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
        if (step >= length) restart(isStopped);
        else tryOne();
      }
    },
    best: () => best,
    boundTicks: () => 0,
    hearOf: () => undefined,
    isFinished: () => count === 0,
  };
}
