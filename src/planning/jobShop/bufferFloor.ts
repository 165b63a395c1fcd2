import type { ShopModel } from './shopModel.ts';

/**
 * A floor with finite waiting places, step by step: who is where and since when each place is free. A location with w waiting places holds w + 1
 * jobs, one of them at the machine. A job is picked up only for a place that is free when it arrives; a finished job stays at the machine
 * until it is picked up or a waiting place is free for it, and the next operation cannot begin before; two jobs cannot swap. Who has finished its last operation is gone.
 */
export interface BufferFloor {
  readonly depart: Float64Array;
  readonly arrive: Float64Array;
  readonly start: Float64Array;
  readonly end: Float64Array;
  /** What each operation waited for last: the one before it in its job, at its machine, on its vehicle, or who left it a place; -1 for nothing. */
  readonly cause: Int32Array;
  readonly clear: () => void;
  /** Brings the job to the operation at this alternative. False, and nothing is changed, where there is no free place yet. `makesWay`: where it takes the last place, a finished job first leaves the machine. */
  readonly carry: (operation: number, alternative: number, vehicle: number, makesWay: boolean) => boolean;
  /** Runs the operation where the job is. False, and nothing is changed, where somebody stands at the machine who cannot step aside yet. */
  readonly run: (operation: number) => boolean;
  /** How often somebody has left a place where places are finite: only then can a step be possible that was not. */
  readonly leaves: () => number;
  /** The vehicle that could first pick up a job at this place that is ready then. */
  readonly firstVehicle: (from: number, ready: number) => number;
  /** When about the operation would begin at this alternative, if the job were brought now; Infinity where there is no free place yet. */
  readonly look: (operation: number, alternative: number, vehicle: number) => number;
}

export function bufferFloor(model: ShopModel, durations: ArrayLike<number>, travel: ArrayLike<number>): BufferFloor {
  const { count, places, jobOf, jobFirst, altPlace, startPlace, vehicles } = model;
  const buffers = model.buffers!;
  const [depart, arrive, start, end] = [new Float64Array(count), new Float64Array(count), new Float64Array(count), new Float64Array(count)];
  const at = new Int32Array(count), cause = new Int32Array(count), tripCause = new Int32Array(count), leftBy = new Int32Array(places);
  const taken = new Int32Array(count);
  const vehicleFree = new Float64Array(Math.max(1, vehicles)), vehicleAt = new Int32Array(vehicleFree.length), vehicleLast = new Int32Array(vehicleFree.length);
  // Times since when a place is free; empty where all are taken. Who was last at the machine, when it ended, and whether (since when) it is out of the way.
  const free: number[][] = Array.from({ length: places }, () => []);
  const lastAt = new Int32Array(places), isClear = new Uint8Array(places), clearAt = new Float64Array(places);
  const isFinite = (place: number): boolean => buffers[place]! >= 0;

  let left = 0;

  function clear(): void {
    left = 0;
    vehicleFree.fill(0); vehicleAt.fill(startPlace); vehicleLast.fill(-1); leftBy.fill(-1); lastAt.fill(-1); isClear.fill(1); clearAt.fill(0);
    for (let p = 0; p < places; p += 1) if (isFinite(p)) free[p] = Array.from({ length: buffers[p]! + 1 }, () => 0);
  }

  const earliest = (place: number): number => { const list = free[place]!; let e = 0; for (let i = 1; i < list.length; i += 1) if (list[i]! < list[e]!) e = i; return e; };
  const pickUp = (v: number, from: number, ready: number): number => Math.max(ready, vehicleFree[v]! + travel[vehicleAt[v]! * places + from]!);

  function firstVehicle(from: number, ready: number): number {
    let first = 0, least = pickUp(0, from, ready);
    for (let v = 1; v < vehicles; v += 1) { const time = pickUp(v, from, ready); if (time < least) { least = time; first = v; } }
    return first;
  }

  function look(o: number, a: number, v: number): number {
    const isFirst = o === jobFirst[jobOf[o]!], to = altPlace[a]!;
    const from = isFirst ? startPlace : at[o - 1]!, ready = isFirst ? 0 : end[o - 1]!;
    const machine = isClear[to] === 1 ? clearAt[to]! : end[lastAt[to]!]!;
    if (from === to) return Math.max(ready, machine);
    const ticks = travel[from * places + to]!, list = free[to]!;
    if (isFinite(to) && list.length === 0) return Infinity;
    const open = isFinite(to) ? Math.max(list[earliest(to)]!, list.length === 1 && isClear[to] === 0 ? machine : 0) : 0;
    return Math.max(Math.max(pickUp(v, from, ready), open - ticks) + ticks, machine);
  }

  /** The finished job at the machine takes a free waiting place, which leaves the one at the machine free. */
  function stepAside(place: number): void {
    const e = earliest(place);
    isClear[place] = 1;
    clearAt[place] = free[place]![e] = Math.max(end[lastAt[place]!]!, free[place]![e]!);
  }

  function leave(o: number, time: number): void {
    const place = at[o]!;
    if (!isFinite(place)) return;
    free[place]!.push(time);
    leftBy[place] = o;
    left += 1;
    if (lastAt[place] === o && isClear[place] === 0) { isClear[place] = 1; clearAt[place] = time; }
  }

  function carry(o: number, a: number, v: number, makesWay: boolean): boolean {
    const isFirst = o === jobFirst[jobOf[o]!], to = altPlace[a]!;
    const from = isFirst ? startPlace : at[o - 1]!, ready = isFirst ? 0 : end[o - 1]!;
    taken[o] = a;
    at[o] = to;
    tripCause[o] = isFirst ? -1 : o - 1;
    if (from === to) { depart[o] = arrive[o] = ready; return true; }
    let open = 0;
    if (isFinite(to)) {
      if (free[to]!.length === 0) return false;
      if (free[to]!.length === 1 && makesWay && isClear[to] === 0) stepAside(to);
      open = free[to]!.splice(earliest(to), 1)[0]!;
    }
    const ticks = travel[from * places + to]!;
    const there = pickUp(v, from, ready);
    if (open - ticks > there) tripCause[o] = leftBy[to]!;
    else if (there > ready) tripCause[o] = vehicleLast[v]!;
    depart[o] = Math.max(there, open - ticks);
    vehicleLast[v] = o;
    arrive[o] = vehicleFree[v] = depart[o]! + ticks;
    vehicleAt[v] = to;
    if (!isFirst) leave(o - 1, depart[o]!);
    return true;
  }

  function run(o: number): boolean {
    const place = at[o]!, isOwn = lastAt[place] === o - 1 && o > jobFirst[jobOf[o]!]!;
    if (isFinite(place) && isClear[place] === 0 && !isOwn) {
      if (free[place]!.length === 0) return false;
      stepAside(place);
    }
    start[o] = Math.max(arrive[o]!, isFinite(place) && isOwn && isClear[place] === 0 ? end[o - 1]! : clearAt[place]!);
    cause[o] = start[o] === arrive[o] ? tripCause[o]! : lastAt[place]!;
    end[o] = start[o]! + durations[taken[o]!]!;
    lastAt[place] = o;
    isClear[place] = isFinite(place) ? 0 : 1;
    clearAt[place] = end[o]!;
    if (o + 1 === jobFirst[jobOf[o]! + 1]) leave(o, end[o]!);
    return true;
  }

  return { depart, arrive, start, end, cause, clear, carry, run, leaves: () => left, firstVehicle, look };
}
