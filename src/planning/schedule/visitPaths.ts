/** The earliest times at which each stop of a visit can be reached and left, as if its basin were alone on the floor. */
import { fitWork } from './dayFloor.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { ScheduledStop, ScheduledTrip } from './scheduleProblem.ts';

export interface VisitPaths {
  /** By leg: least time at which the basin can be set down there, and at which the work there can be done. */
  readonly arriveS: Float64Array;
  readonly endS: Float64Array;
  /** By alternative: least time from the end of the work there to being back on the berth, lifting included. */
  readonly tailS: Float64Array;
  /** By leg: true when it is done or under way already. */
  readonly frozen: Uint8Array;
  readonly leastPickS: number;
  readonly leastDropS: number;
  /** By visit: least sum of loaded travel over the legs still to be made. */
  readonly loadedS: Float64Array;
}

export function findVisitPaths(model: DayModel): VisitPaths {
  const leastOf = (list: Int32Array): number => list.reduce((least, value) => Math.min(least, value), UNKNOWN);
  const paths: VisitPaths = {
    arriveS: new Float64Array(model.legCount), endS: new Float64Array(model.legCount),
    tailS: new Float64Array(model.altStation.length), frozen: new Uint8Array(model.legCount),
    leastPickS: leastOf(model.pickS), leastDropS: leastOf(model.dropS),
    loadedS: new Float64Array(model.visitCount),
  };
  const known = readFrozen(model, paths);
  for (let round = 0; round <= model.visitCount; round++) {
    let changed = false;
    for (let v = 0; v < model.visitCount; v++) changed = walkForward(model, paths, known, v) || changed;
    if (!changed || model.after.every((list) => list.length === 0)) break;
  }
  for (let v = 0; v < model.visitCount; v++) walkBack(model, paths, v);
  return paths;
}

interface Known { readonly trips: Map<number, ScheduledTrip>; readonly stops: Map<number, ScheduledStop> }

function readFrozen(model: DayModel, paths: VisitPaths): Known {
  const index = new Map(model.problem.visits.map((visit, v) => [visit.id, v]));
  const legOf = (visit: string, within: number): number => (model.legBase[index.get(visit) as number] as number) + within;
  const known: Known = { trips: new Map(), stops: new Map() };
  for (const trip of model.problem.frozen?.trips ?? []) {
    known.trips.set(legOf(trip.visit, trip.leg), trip);
    paths.frozen[legOf(trip.visit, trip.leg)] = 1;
  }
  for (const stop of model.problem.frozen?.stops ?? []) known.stops.set(legOf(stop.visit, stop.stop), stop);
  return known;
}

/** True when a time of the visit grew. */
function walkForward(model: DayModel, paths: VisitPaths, known: Known, v: number): boolean {
  const base = model.legBase[v] as number;
  const stops = model.stopCount[v] as number;
  const reach = { places: [model.startLocation[v] as number], readyS: [firstLiftS(model, v)] };
  let changed = false;
  for (let i = 0; i <= stops; i++) {
    const t = base + i;
    const before = (paths.arriveS[t] as number) + (paths.endS[t] as number);
    if (i < stops) reachStop(model, paths, known, t, reach);
    else reachHome(model, paths, known, v, reach);
    changed ||= (paths.arriveS[t] as number) + (paths.endS[t] as number) > before;
  }
  return changed;
}

function firstLiftS(model: DayModel, v: number): number {
  const start = model.startLocation[v] as number;
  let there = UNKNOWN;
  for (let k = 0; k < model.vehicleCount; k++) {
    const way = model.emptyS[(model.vehicleStart[k] as number) * model.locationCount + start] as number;
    there = Math.min(there, model.problem.frozen === undefined ? Math.max(0, model.vehicleFromS[k] as number) + way : 0);
  }
  return Math.max(there, model.nowS, model.releaseS[v] as number);
}

interface Reach { places: number[]; readyS: number[] }

/** Replaces the reach by the alternatives of the stop and the ends of the work there. */
function reachStop(model: DayModel, paths: VisitPaths, known: Known, t: number, reach: Reach): void {
  const trip = known.trips.get(t);
  const stop = known.stops.get(t);
  const next: Reach = { places: [], readyS: [] };
  let arrive = UNKNOWN;
  let end = UNKNOWN;
  let orderS = 0;
  for (const source of model.after[t] as readonly number[]) orderS = Math.max(orderS, paths.endS[source] as number);
  for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) {
    const station = model.stations[model.altStation[a] as number] as StationModel;
    if (trip !== undefined && trip.toStation !== station.id) continue;
    const there = trip?.arriveS ?? Math.max(orderS, arriveFrom(model, paths, reach, station.location));
    const begin = fitWork(station.open, Math.max(there, model.nowS, model.notBeforeS[t] as number), model.altServiceS[a] as number);
    const done = stop?.endS ?? Math.min(UNKNOWN, begin + (model.altServiceS[a] as number));
    next.places.push(station.location);
    next.readyS.push(Math.max(done, model.nowS));
    arrive = Math.min(arrive, there);
    end = Math.min(end, done);
  }
  paths.arriveS[t] = arrive;
  paths.endS[t] = end;
  reach.places = next.places;
  reach.readyS = next.readyS;
}

function arriveFrom(model: DayModel, paths: VisitPaths, reach: Reach, to: number): number {
  let least = UNKNOWN;
  reach.places.forEach((from, i) => {
    const travel = model.loadedS[from * model.locationCount + to] as number;
    least = Math.min(least, (reach.readyS[i] as number) + paths.leastPickS + travel + paths.leastDropS);
  });
  return least;
}

function reachHome(model: DayModel, paths: VisitPaths, known: Known, v: number, reach: Reach): void {
  const t = (model.legBase[v] as number) + (model.stopCount[v] as number);
  const ends = model.ends[v] as DayModel['ends'][number];
  const least = ends.reduce((best, end) => Math.min(best, arriveFrom(model, paths, reach, end.location)), UNKNOWN);
  paths.arriveS[t] = known.trips.get(t)?.arriveS ?? least;
  paths.endS[t] = paths.arriveS[t] as number;
}

/** Tails by alternative, and the least loaded travel of the visit. */
function walkBack(model: DayModel, paths: VisitPaths, v: number): void {
  const base = model.legBase[v] as number;
  let targets = (model.ends[v] as DayModel['ends'][number]).map((end) => ({ location: end.location, restS: 0, loadedS: 0 }));
  for (let t = base + (model.stopCount[v] as number) - 1; t >= base - 1; t--) {
    const counts = paths.frozen[t + 1] === 0;
    const following = targets;
    const step = (from: number): { restS: number; loadedS: number } => {
      const ways = following.map((target) => {
        const travel = model.loadedS[from * model.locationCount + target.location] as number;
        return { restS: paths.leastPickS + travel + paths.leastDropS + target.restS, loadedS: (counts ? travel : 0) + target.loadedS };
      });
      return { restS: ways.reduce((m, w) => Math.min(m, w.restS), UNKNOWN), loadedS: ways.reduce((m, w) => Math.min(m, w.loadedS), UNKNOWN) };
    };
    if (t < base) {
      paths.loadedS[v] = step(model.startLocation[v] as number).loadedS;
      return;
    }
    targets = [];
    for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) {
      const location = (model.stations[model.altStation[a] as number] as StationModel).location;
      const { restS, loadedS } = step(location);
      paths.tailS[a] = restS;
      targets.push({ location, restS: restS + (model.altServiceS[a] as number), loadedS });
    }
  }
}
