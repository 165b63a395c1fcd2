/** Puts what is done or under way into a fresh floor: vehicles, basins at stations and on the way, their berths. */
import { BACK_SUM, EMPTY, FINISH, LOADED } from './dayFloor.ts';
import type { DayFloor } from './dayFloor.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { FrozenWork, ScheduledStop, ScheduledTrip } from './scheduleProblem.ts';

/** False when a visit under way cannot go on as planned (floor.culprit, floor.cause); the floor is then void. */
export function placeFrozen(floor: DayFloor): boolean {
  const frozen = floor.model.problem.frozen;
  if (frozen === undefined) return true;
  const names = nameIndexes(floor.model);
  const trips = [...frozen.trips].sort((a, b) => a.pickS - b.pickS || a.arriveS - b.arriveS);
  for (const trip of trips) placeTrip(floor, names, trip);
  placeCharges(floor, names, frozen);
  for (const visit of floor.model.problem.visits.keys()) placeBerth(floor, visit);
  for (const stop of frozen.stops) placeStop(floor, names, stop);
  return placeWaiting(floor, names, frozen, trips);
}

interface Names { readonly visit: Map<string, number>; readonly station: Map<string, number>; readonly vehicle: Map<string, number> }

function nameIndexes(model: DayModel): Names {
  const index = (list: readonly { id: string }[]): Map<string, number> => new Map(list.map((item, i) => [item.id, i]));
  return { visit: index(model.problem.visits), station: index(model.stations), vehicle: index(model.problem.vehicles) };
}

function placeTrip(floor: DayFloor, names: Names, trip: ScheduledTrip): void {
  const { model, state, layout, legs, totals } = floor;
  const v = names.visit.get(trip.visit) as number;
  const k = names.vehicle.get(trip.vehicle) as number;
  const t = (model.legBase[v] as number) + trip.leg;
  legs.vehicle[t] = k;
  legs.from[t] = trip.from;
  legs.to[t] = trip.to;
  legs.emptyFrom[t] = trip.emptyFrom;
  legs.emptyDepartS[t] = trip.emptyDepartS;
  legs.pickS[t] = trip.pickS;
  legs.departS[t] = trip.departS;
  legs.arriveS[t] = trip.arriveS;
  legs.station[t] = trip.toStation === undefined ? -1 : (names.station.get(trip.toStation) as number);
  legs.leaveS[t] = UNKNOWN;
  state[layout.leg + v] = trip.leg + 1;
  state[layout.at + v] = trip.to;
  state[layout.ready + v] = UNKNOWN;
  state[layout.vehicleAt + k] = trip.to;
  state[layout.vehicleFree + k] = Math.max(state[layout.vehicleFree + k] as number, trip.arriveS);
  const emptyS = model.emptyS[trip.emptyFrom * model.locationCount + trip.from] as number;
  const loadedS = model.loadedS[trip.from * model.locationCount + trip.to] as number;
  totals[EMPTY] = (totals[EMPTY] as number) + emptyS;
  totals[LOADED] = (totals[LOADED] as number) + loadedS;
  state[layout.charge + k] = (state[layout.charge + k] as number) - emptyS - loadedS - (model.pickS[k] as number) - (model.dropS[k] as number);
  if (trip.leg === model.stopCount[v]) {
    totals[FINISH] = Math.max(totals[FINISH] as number, trip.arriveS);
    totals[BACK_SUM] = (totals[BACK_SUM] as number) + trip.arriveS;
    floor.countLate(v, trip.arriveS - (model.dueS[v] as number));
  }
}

/** The charge after the last charging of each vehicle is what it had then less the trips since. */
function placeCharges(floor: DayFloor, names: Names, frozen: FrozenWork): void {
  const { model, state, layout } = floor;
  for (const charge of frozen.charges ?? []) {
    const k = names.vehicle.get(charge.vehicle) as number;
    const later = (frozen.charges ?? []).some((c) => c.vehicle === charge.vehicle && c.fromS > charge.fromS);
    if (later) continue;
    let left = model.problem.vehicles[k]?.battery?.capacityS ?? 0;
    const since = frozen.trips.filter((trip) => trip.vehicle === charge.vehicle && trip.pickS >= charge.toS);
    for (const trip of since) {
      left -= (model.emptyS[trip.emptyFrom * model.locationCount + trip.from] as number) + (trip.arriveS - trip.pickS);
    }
    state[layout.charge + k] = left;
    if (since.length > 0) continue;
    state[layout.vehicleAt + k] = charge.location;
    state[layout.vehicleFree + k] = Math.max(state[layout.vehicleFree + k] as number, charge.toS);
  }
}

/** A basin that left its berth frees it, if it goes to another; the one it goes to is kept for it. */
function placeBerth(floor: DayFloor, v: number): void {
  const { model, state, layout, legs } = floor;
  if ((state[layout.leg + v] as number) === 0) return;
  const start = model.startLocation[v] as number;
  const over = (state[layout.leg + v] as number) > (model.stopCount[v] as number);
  const choices = model.ends[v] as DayModel['ends'][number];
  const chosen = over ? (state[layout.at + v] as number) : (choices[0] as { location: number }).location;
  state[layout.berth + v] = chosen;
  if (chosen === start) return;
  const leftS = legs.departS[model.legBase[v] as number] as number;
  swapPlace(floor, model.berthOf[start] as number, UNKNOWN, leftS);
  const berth = model.berthOf[chosen] as number;
  if (berth >= 0) state[layout.berthReady + v] = swapPlace(floor, berth, -1, UNKNOWN);
}

/** Replaces one entry of the berth (value, or with -1 the one that is free first) and returns what stood there. */
function swapPlace(floor: DayFloor, berth: number, value: number, by: number): number {
  if (berth < 0) return 0;
  const { state, layout } = floor;
  const from = layout.berthFree + (layout.berthBase[berth] as number);
  const to = layout.berthFree + (layout.berthBase[berth + 1] as number);
  const wanted = value < 0 ? floor.least(from, to) : value;
  for (let p = from; p < to; p++) {
    if (state[p] !== wanted) continue;
    state[p] = by;
    return wanted === UNKNOWN ? 0 : wanted;
  }
  return 0;
}

function placeStop(floor: DayFloor, names: Names, stop: ScheduledStop): void {
  const { model, state, layout, legs } = floor;
  const v = names.visit.get(stop.visit) as number;
  const s = names.station.get(stop.station) as number;
  const t = (model.legBase[v] as number) + stop.stop;
  legs.station[t] = s;
  legs.startS[t] = stop.startS;
  legs.endS[t] = stop.endS;
  state[layout.stopEnd + t] = stop.endS;
  floor.countLate(v, stop.endS - (model.stopDueS[t] as number));
  holdCrew(floor, s, stop.endS);
  if (stop.leaveS !== undefined) {
    legs.leaveS[t] = stop.leaveS;
    holdUntil(floor, s, stop.leaveS);
    return;
  }
  state[layout.station + v] = s;
  state[layout.standsS + v] = stop.arriveS;
  state[layout.ready + v] = Math.max(model.nowS, stop.endS);
  state[layout.place + v] = floor.holdFromStart(s, stop.endS);
}

/** A basin that stands there still, but that a vehicle under way will take. */
function holdUntil(floor: DayFloor, s: number, leaveS: number): void {
  if (leaveS <= floor.model.nowS) return;
  const { state } = floor;
  const station = floor.model.stations[s] as StationModel;
  const place = floor.holdFromStart(s, leaveS);
  if (station.slots === UNKNOWN) return;
  if (place >= 0) state[place] = leaveS;
  floor.freeSlot(s, leaveS);
}

function holdCrew(floor: DayFloor, s: number, endS: number): void {
  const { state, layout, model } = floor;
  const crew = (model.stations[s] as StationModel).crew;
  if (crew < 0 || endS <= model.nowS) return;
  const from = layout.crewFree + (layout.crewBase[crew] as number);
  const to = layout.crewFree + (layout.crewBase[crew + 1] as number);
  const free = floor.least(from, to);
  state[state.indexOf(free, from)] = Math.max(free, endS);
}

/** Basins brought to a station, or on the way there, whose work has not begun; in the order in which they come. */
function placeWaiting(floor: DayFloor, names: Names, frozen: FrozenWork, trips: readonly ScheduledTrip[]): boolean {
  const { model, state, layout } = floor;
  const begun = new Set(frozen.stops.map((stop) => `${stop.stop} ${stop.visit}`));
  const coming = trips.filter((trip) => {
    const v = names.visit.get(trip.visit) as number;
    return trip.toStation !== undefined && state[layout.leg + v] === trip.leg + 1 && !begun.has(`${trip.leg} ${trip.visit}`);
  });
  coming.sort((a, b) => a.arriveS - b.arriveS);
  for (const trip of coming) {
    const v = names.visit.get(trip.visit) as number;
    const t = (model.legBase[v] as number) + trip.leg;
    if (!floor.setDown(v, t, names.station.get(trip.toStation as string) as number, trip.arriveS)) return false;
  }
  return true;
}
