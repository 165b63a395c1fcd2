/** Lower bound on the finish from the vehicles: all lifting, carrying and setting down, and the least empty travel between. */
import { assignLeast, assignQuickly } from './assignLeast.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { VisitPaths } from './visitPaths.ts';

export interface VehicleLoad {
  readonly boundS: number;
  readonly loadedS: number;
  readonly handlingS: number;
  readonly leastEmptyS: number;
}

/**
 * `legs`: the trips that are still to be made. `besideS`: a bound from elsewhere; where the vehicles cannot come above it the
 * empty way is only bounded from below by each trip's shortest way on, which takes no assignment.
 */
export function boundOfVehicles(model: DayModel, paths: VisitPaths, legs: readonly number[], besideS = 0): VehicleLoad {
  const handlingS = legs.length * (paths.leastPickS + paths.leastDropS);
  const visits = new Set(legs.map((t) => model.legVisit[t] as number));
  let loadedS = 0;
  for (const v of visits) loadedS += paths.loadedS[v] as number;
  const carryS = handlingS + loadedS;
  const leastEmptyS = leastEmptyTravel(model, paths, legs, (emptyS) => shareAmongVehicles(model, carryS + emptyS) > besideS);
  const total = carryS + leastEmptyS;
  return { boundS: legs.length === 0 ? 0 : shareAmongVehicles(model, total), loadedS, handlingS, leastEmptyS };
}

/** Earliest time by which the vehicles together can have worked that long. */
function shareAmongVehicles(model: DayModel, totalS: number): number {
  const from = [...model.vehicleFromS].map((s) => Math.max(s, model.nowS)).sort((a, b) => a - b);
  let used = 0;
  for (let k = 0; k < from.length; k++) {
    used += from[k] as number;
    const end = Math.ceil((totalS + used) / (k + 1));
    if (k + 1 === from.length || end <= (from[k + 1] as number)) return end;
  }
  return 0;
}

/**
 * Each trip begins where its vehicle started or where another trip ended; the least total empty way over all such
 * pairings, as a transport problem. A vehicle that waits for the basin it has just brought loses the time of the work.
 */
function leastEmptyTravel(model: DayModel, paths: VisitPaths, legs: readonly number[], matters: (emptyS: number) => boolean): number {
  const sites = new SiteTable(model);
  const origins = legs.map((t) => sites.siteOf(model, t, 'from'));
  const targets = legs.map((t) => sites.siteOf(model, t, 'to'));
  const starts = model.problem.frozen === undefined
    ? [...model.vehicleStart].map((location) => sites.single(location)) : [...model.vehicleStart].map(() => -1);
  const cost = sites.wayTable(model);
  const count = sites.count;
  const n = legs.length;
  const k = starts.length;
  const costOf = (row: number, column: number): number => {
    if (column >= n) return 0;
    if (row >= n) return starts[row - n] === -1 ? 0 : (cost[(starts[row - n] as number) * count + (origins[column] as number)] as number);
    const way = cost[(targets[row] as number) * count + (origins[column] as number)] as number;
    const done = legs[row] as number;
    const next = legs[column] as number;
    if (model.legVisit[done] !== model.legVisit[next]) return way;
    return next <= done ? Infinity : Math.max(way, leastWait(model, paths, done, next));
  };
  const quick = assignQuickly(n + k, n + k, costOf);
  return matters(quick.atMost) ? assignLeast(n + k, n + k, costOf) ?? 0 : quick.atLeast;
}

/** From setting the basin down after leg `done` to lifting it for leg `next` of the same visit. */
function leastWait(model: DayModel, paths: VisitPaths, done: number, next: number): number {
  let wait = (next - done - 1) * (paths.leastPickS + paths.leastDropS);
  for (let t = done; t < next; t++) {
    let service = UNKNOWN;
    for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) service = Math.min(service, model.altServiceS[a] as number);
    wait += service;
  }
  return wait;
}

/** Sets of locations that a trip can begin or end at, numbered, with the least empty way between any two. */
class SiteTable {
  private readonly numbers = new Map<string, number>();
  private readonly sets: number[][] = [];
  private readonly frozenAt: Map<number, number>;

  constructor(model: DayModel) {
    const index = new Map(model.problem.visits.map((v, i) => [v.id, i]));
    this.frozenAt = new Map((model.problem.frozen?.trips ?? []).map((trip) =>
      [(model.legBase[index.get(trip.visit) as number] as number) + trip.leg, trip.to]));
  }

  get count(): number {
    return this.sets.length;
  }

  single(location: number): number {
    return this.number([location]);
  }

  siteOf(model: DayModel, t: number, end: 'from' | 'to'): number {
    const v = model.legVisit[t] as number;
    const base = model.legBase[v] as number;
    if (end === 'from' && t === base) return this.single(model.startLocation[v] as number);
    if (end === 'to' && t === base + (model.stopCount[v] as number)) return this.number((model.ends[v] as DayModel['ends'][number]).map((e) => e.location));
    const stop = end === 'to' ? t : t - 1;
    const known = this.frozenAt.get(stop);
    if (known !== undefined) return this.single(known);
    const stations = [...model.altStation.subarray(model.altBase[stop], model.altBase[stop + 1])];
    return this.number(stations.map((s) => (model.stations[s] as StationModel).location));
  }

  private number(locations: number[]): number {
    const set = [...new Set(locations)].sort((a, b) => a - b);
    const key = set.join(' ');
    const known = this.numbers.get(key);
    if (known !== undefined) return known;
    this.numbers.set(key, this.sets.length);
    this.sets.push(set);
    return this.sets.length - 1;
  }

  wayTable(model: DayModel): Int32Array {
    const table = new Int32Array(this.count * this.count);
    this.sets.forEach((from, i) => this.sets.forEach((to, j) => {
      let least = UNKNOWN;
      for (const a of from) for (const b of to) least = Math.min(least, model.emptyS[a * model.locationCount + b] as number);
      table[i * this.count + j] = least;
    }));
    return table;
  }
}
