import type { RandomStream } from '../../science/seededRandom.ts';
import type { BufferFloor } from './bufferFloor.ts';
import { jobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';

/** Jobs in the order in which each is brought to its next operation, which then runs, and the alternatives taken. */
export interface BufferedTurns { readonly turns: readonly number[]; readonly alternative: Int32Array }

/**
 * A plan with finite waiting places, built step by step: of the operations that could begin before any could end, the one whose job has most left goes next (active
 * schedules: Giffler & Thompson 1960, Operations Research 8:487-503), with some luck, if afterwards all who are on their way could still be
 * finished one after the other. So it never locks (the safe state of Dijkstra 1965, EWD 123). Undefined where that rule is too careful to go on.
 */
export function dispatchBuffered(model: ShopModel, floor: BufferFloor, random: RandomStream): BufferedTurns | undefined {
  const { count, jobs, jobFirst, altFirst, altPlace, altTicks, places, startPlace } = model;
  const { operationTail } = jobPaths(model);
  const buffers = model.buffers!;
  const next = Int32Array.from(jobFirst.subarray(0, jobs)), at = new Int32Array(jobs).fill(-1);
  const held = new Int32Array(places), room = new Int32Array(places), lastAt = new Int32Array(places).fill(-1);
  const luck = Float64Array.from({ length: jobs }, () => 0.6 + 0.8 * random.uniform());
  const alternative = Int32Array.from(altFirst.subarray(0, count));
  const turns: number[] = [];
  const most = altPlace.length, whose = new Int32Array(most), choice = new Int32Array(most), start = new Float64Array(most), key = new Float64Array(most);
  floor.clear();
  while (turns.length < count) {
    const job = goOn();
    if (job < 0) return undefined;
    turns.push(job);
  }
  return { turns, alternative };

  /** The next step is taken; whose it is, or -1 where none is allowed. */
  function goOn(): number {
    const found = rank(collect());
    for (let tries = 0; tries < found; tries += 1) {
      let pick = 0;
      for (let i = 1; i < found; i += 1) if (key[i]! < key[pick]!) pick = i;
      if (isTaken(whose[pick]!, choice[pick]!)) return whose[pick]!;
      key[pick] = Infinity;
    }
    return -1;
  }

  /** All steps for which there is a place; returns how many. */
  function collect(): number {
    let found = 0;
    for (let job = 0; job < jobs; job += 1) {
      const o = next[job]!;
      if (o === jobFirst[job + 1]) continue;
      const from = at[job]! < 0 ? startPlace : at[job]!, v = floor.firstVehicle(from, o === jobFirst[job] ? 0 : floor.end[o - 1]!);
      for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
        const time = floor.look(o, a, v);
        if (time === Infinity) continue;
        whose[found] = job; choice[found] = a; start[found] = time;
        found += 1;
      }
    }
    return found;
  }

  /** First those that could begin before any ends, most left first; then the others, earliest end first. */
  function rank(found: number): number {
    let earliest = Infinity;
    for (let i = 0; i < found; i += 1) earliest = Math.min(earliest, start[i]! + altTicks[choice[i]!]!);
    for (let i = 0; i < found; i += 1) {
      const job = whose[i]!, ticks = altTicks[choice[i]!]!;
      key[i] = start[i]! < earliest || start[i]! + ticks === earliest ? -(operationTail[next[job]!]! + ticks) * luck[job]! : start[i]! + ticks;
    }
    return found;
  }

  function isTaken(job: number, a: number): boolean {
    const o = next[job]!, from = at[job]!, to = altPlace[a]!, last = lastAt[to]!;
    move(job, to);
    next[job] = o + 1;
    if (o + 1 === jobFirst[job + 1]) move(job, -1);
    lastAt[to] = job;
    const v = floor.firstVehicle(from < 0 ? startPlace : from, o === jobFirst[job] ? 0 : floor.end[o - 1]!);
    if (isSafe() && floor.carry(o, a, v, true) && floor.run(o)) { alternative[o] = a; return true; }
    move(job, from);
    next[job] = o;
    lastAt[to] = last;
    return false;
  }

  function move(job: number, to: number): void {
    if (at[job]! >= 0) held[at[job]!]! -= 1;
    if (to >= 0) held[to]! += 1;
    at[job] = to;
  }

  /** Whether all who are on their way can be finished one after the other, nobody else being sent. */
  function isSafe(): boolean {
    room.set(held);
    let left: number[] = [];
    for (let j = 0; j < jobs; j += 1) if (at[j]! >= 0) left.push(j);
    while (left.length > 0) {
      const stuck = left.filter((j) => { if (!canEnd(j)) return true; room[at[j]!]! -= 1; return false; });
      if (stuck.length === left.length) return false;
      left = stuck;
    }
    return true;
  }

  function canEnd(j: number): boolean {
    let here = at[j]!, isOwn = lastAt[here] === j;
    for (let o = next[j]!; o < jobFirst[j + 1]!; o += 1) {
      const to = wayOn(o, here, isOwn, at[j]!);
      if (to < 0) return false;
      isOwn ||= to !== here;
      here = to;
    }
    return true;
  }

  /** A place where the job can go on from here, or -1. It still counts where it is now. */
  function wayOn(o: number, here: number, isOwn: boolean, now: number): number {
    for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
      const to = altPlace[a]!, isFree = buffers[to]! < 0 || room[to]! - (to === now && here !== now ? 1 : 0) <= buffers[to]!;
      if (isFree || (to === here && isOwn)) return to;
    }
    return -1;
  }
}
