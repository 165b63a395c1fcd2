/** Where everything stands in one array of numbers while a day is laid out, so that a state is kept by copying it. */
import type { DayModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';

/** Offsets into the state array. Per vehicle, per place, per slot, per station, per visit, per leg, per berth place. */
export interface StateLayout {
  readonly size: number;
  readonly vehicleAt: number;
  readonly vehicleFree: number;
  readonly charge: number;
  /** First service place of each station; one more entry closes the last. */
  readonly placeBase: Int32Array;
  /** When each place is free again, UNKNOWN while a basin holds it; and when it is likely free. */
  readonly placeFree: number;
  readonly placeGuess: number;
  readonly slotBase: Int32Array;
  readonly slotFree: number;
  readonly waitingCount: number;
  readonly waitBase: Int32Array;
  readonly waiting: number;
  readonly overfull: number;
  readonly crewBase: Int32Array;
  readonly crewFree: number;
  readonly leg: number;
  readonly at: number;
  readonly ready: number;
  /** Index of the station that the basin stands at, or -1; and of its service place, or -1 while it waits. */
  readonly station: number;
  readonly place: number;
  /** When the basin was set down at its station. */
  readonly standsS: number;
  readonly late: number;
  readonly berth: number;
  readonly berthReady: number;
  readonly stopEnd: number;
  readonly berthBase: Int32Array;
  readonly berthFree: number;
}

export function layOutState(model: DayModel): StateLayout {
  let size = 0;
  const take = (count: number): number => {
    const start = size;
    size += count;
    return start;
  };
  const bases = (counts: readonly number[]): Int32Array => {
    const base = new Int32Array(counts.length + 1);
    counts.forEach((count, i) => { base[i + 1] = (base[i] as number) + count; });
    return base;
  };
  const placeBase = bases(model.stations.map((s) => s.places));
  const slotBase = bases(model.stations.map((s) => (s.slots === UNKNOWN ? 0 : s.slots)));
  // Basins beyond the slots can only come from work under way (a station that lost places): room for all of them.
  const under = model.problem.frozen?.trips.length ?? 0;
  const waitBase = bases(model.stations.map((s) => (s.slots === UNKNOWN ? 0 : s.slots + under)));
  const crewBase = bases(model.crewPeople);
  const berthBase = bases(model.berths.map((b) => b.places));
  const total = (base: Int32Array): number => base[base.length - 1] as number;
  const visits = model.visitCount;
  const layout = {
    vehicleAt: take(model.vehicleCount), vehicleFree: take(model.vehicleCount), charge: take(model.vehicleCount),
    placeBase, placeFree: take(total(placeBase)), placeGuess: take(total(placeBase)),
    slotBase, slotFree: take(total(slotBase)),
    waitingCount: take(model.stations.length), waitBase, waiting: take(total(waitBase)), overfull: take(model.stations.length),
    crewBase, crewFree: take(total(crewBase)),
    leg: take(visits), at: take(visits), ready: take(visits), station: take(visits), place: take(visits), standsS: take(visits), late: take(visits),
    berth: take(visits), berthReady: take(visits),
    stopEnd: take(model.legCount),
    berthBase, berthFree: take(total(berthBase)),
  };
  return { ...layout, size };
}

/** The state at the start of the shift: every basin on its berth, nothing under way. */
export function startState(model: DayModel, at: StateLayout): Int32Array {
  const state = new Int32Array(at.size);
  const now = model.nowS;
  state.fill(now, at.placeFree, at.waitingCount);
  state.fill(now, at.crewFree, at.leg);
  for (let k = 0; k < model.vehicleCount; k++) {
    state[at.vehicleAt + k] = model.vehicleStart[k] as number;
    state[at.vehicleFree + k] = Math.max(now, model.vehicleFromS[k] as number);
    state[at.charge + k] = model.problem.vehicles[k]?.battery?.atStartS ?? 0;
  }
  for (let v = 0; v < model.visitCount; v++) {
    state[at.at + v] = model.startLocation[v] as number;
    state[at.ready + v] = Math.max(now, model.releaseS[v] as number);
    state[at.station + v] = -1;
    state[at.place + v] = -1;
    state[at.berth + v] = -1;
  }
  state.fill(UNKNOWN, at.stopEnd, at.berthBase.length > 1 ? at.berthFree : at.size);
  model.berths.forEach((berth, index) => {
    const base = at.berthFree + (at.berthBase[index] as number);
    for (let p = 0; p < berth.places; p++) state[base + p] = p < berth.taken ? UNKNOWN : now;
  });
  return state;
}
