/** The best lower bound on the finish of the visits that are made, and what binds. */
import type { DayChoice } from './dayChoice.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { ScheduleBound } from './schedule.ts';
import type { ScheduledStop } from './scheduleProblem.ts';
import { boundOfHours, boundOfPlaces, boundOfSets } from './stationBound.ts';
import type { PlacedWork } from './stationBound.ts';
import { boundOfVehicles } from './vehicleBound.ts';
import { findVisitPaths } from './visitPaths.ts';
import type { VisitPaths } from './visitPaths.ts';

/**
 * No schedule of the visits that the choice makes finishes earlier. Parts: the longest path of a single visit, every
 * station and every set of stations that share work, and the vehicles.
 */
export function boundFinish(model: DayModel, choice: DayChoice): ScheduleBound {
  const paths = findVisitPaths(model);
  const made = [...model.problem.visits.keys()].filter((v) => !choice.isDropped(v));
  const parts: Record<string, number> = {};
  const path = longestPath(model, paths, made);
  if (path !== undefined) parts[path.name] = path.boundS;
  for (const [name, boundS] of stationBounds(model, paths, made)) parts[name] = boundS;
  const legs = made.flatMap((v) => legsOf(model, v)).filter((t) => paths.frozen[t] === 0);
  parts['vehicles'] = boundOfVehicles(model, paths, legs, Math.max(...Object.values(parts), 0)).boundS;
  let binds = '';
  let finishS = 0;
  for (const [name, boundS] of Object.entries(parts)) {
    if (boundS <= finishS) continue;
    finishS = boundS;
    binds = name;
  }
  return { finishS, binds, parts };
}

function legsOf(model: DayModel, v: number): number[] {
  const base = model.legBase[v] as number;
  return Array.from({ length: (model.stopCount[v] as number) + 1 }, (_, i) => base + i);
}

function longestPath(model: DayModel, paths: VisitPaths, made: readonly number[]): { name: string; boundS: number } | undefined {
  let best: { name: string; boundS: number } | undefined;
  for (const v of made) {
    const boundS = paths.arriveS[(model.legBase[v + 1] as number) - 1] as number;
    if (best === undefined || boundS > best.boundS) best = { name: `path of visit ${model.problem.visits[v]?.id}`, boundS };
  }
  return best;
}

/** For each station, each set of stations that some stop may choose from, and each kind: the best of the station bounds. */
function stationBounds(model: DayModel, paths: VisitPaths, made: readonly number[]): [string, number][] {
  const stops = made.flatMap((v) => legsOf(model, v).slice(0, -1)).map((t) => ({ t, choices: choicesOf(model, paths, t) }));
  const groups = new Map<string, number[]>();
  const add = (name: string, stations: number[]): void => { if (stations.length > 0) groups.set(name, stations); };
  model.stations.forEach((station, s) => add(`station ${station.id}`, [s]));
  for (const kind of new Set(model.stations.map((s) => s.kind))) {
    const members = model.stations.flatMap((s, index) => (s.kind === kind ? [index] : []));
    if (members.length > 1) add(`stations of kind ${kind}`, members);
  }
  for (const { choices } of stops) {
    const set = [...new Set(choices.map((a) => model.altStation[a] as number))].sort((a, b) => a - b);
    const name = `stations ${set.map((s) => model.stations[s]?.id).join(' + ')}`;
    if (set.length > 1 && ![...groups.values()].some((g) => g.join() === set.join())) add(name, set);
  }
  const gapS = leastTrip(model, paths, made);
  return [...groups].flatMap(([name, group]): [string, number][] => {
    const inGroup = stops.filter(({ choices }) => choices.every((a) => group.includes(model.altStation[a] as number)));
    return inGroup.length === 0 ? [] : [[name, boundOfGroup(model, paths, group, inGroup, gapS)]];
  });
}

interface StopChoices { readonly t: number; readonly choices: readonly number[] }

/** Alternatives that are still open: the one where the basin already is or is brought, else all. */
function choicesOf(model: DayModel, paths: VisitPaths, t: number): number[] {
  const all = Array.from({ length: (model.altBase[t + 1] as number) - (model.altBase[t] as number) }, (_, i) => (model.altBase[t] as number) + i);
  if (paths.frozen[t] === 0) return all;
  const visit = model.problem.visits[model.legVisit[t] as number];
  const trip = model.problem.frozen?.trips.find((f) => f.visit === visit?.id && f.leg === t - (model.legBase[model.legVisit[t] as number] as number));
  return all.filter((a) => model.stations[model.altStation[a] as number]?.id === trip?.toStation);
}

function boundOfGroup(model: DayModel, paths: VisitPaths, group: readonly number[], stops: readonly StopChoices[], gapS: number): number {
  const stations = group.map((s) => model.stations[s] as StationModel);
  const places = stations.reduce((sum, s) => sum + s.places, 0);
  const held = stops.map((stop) => placedWork(model, paths, stop, true)).filter((w) => w.workS > 0);
  // Work that has begun goes on outside opening hours too: it counts where hours do not.
  const served = stops.filter(({ t }) => !hasBegun(model, t)).map((stop) => placedWork(model, paths, stop, false)).filter((w) => w.workS > 0);
  const carriers = model.vehicleCount;
  // Heads and tails of stations with and without waiting places are counted from different ends of handling.
  const gap = model.problem.frozen === undefined ? Math.max(0, gapS - Math.max(paths.leastPickS, paths.leastDropS)) : 0;
  return Math.max(boundOfSets(held, places), boundOfPlaces(held, places, carriers, gap), boundOfHours(served, stations));
}

/**
 * `held`: the whole time that the basin blocks its place, from setting down where nobody can wait, until it is lifted
 * where only a vehicle frees the place; else the service alone.
 */
function placedWork(model: DayModel, paths: VisitPaths, stop: StopChoices, held: boolean): PlacedWork {
  const { t, choices } = stop;
  let workS = Infinity;
  let tailS = Infinity;
  let earlyS = 0;
  const open = paths.frozen[t] === 0;
  for (const a of choices) {
    const station = model.stations[model.altStation[a] as number] as StationModel;
    const blocks = held && station.slots < UNKNOWN;
    const dropS = blocks && open && station.slots === station.places ? paths.leastDropS : 0;
    const pickS = blocks ? paths.leastPickS : 0;
    workS = Math.min(workS, dropS + (model.altServiceS[a] as number) + pickS);
    tailS = Math.min(tailS, (paths.tailS[a] as number) - pickS);
    earlyS = Math.max(earlyS, dropS);
  }
  if (!open) return frozenWork(model, paths, t, { workS, tailS });
  return { headS: Math.max(model.nowS, (paths.arriveS[t] as number) - earlyS), workS, tailS };
}

/** Work that has begun counts with what is left of it; work whose basin is there or on the way counts in full. */
function frozenWork(model: DayModel, paths: VisitPaths, t: number, work: { workS: number; tailS: number }): PlacedWork {
  const begun = hasBegun(model, t);
  const left = begun === undefined ? work.workS : begun.leaveS !== undefined ? 0 : Math.max(0, begun.endS - model.nowS);
  return { headS: begun === undefined ? Math.max(model.nowS, paths.arriveS[t] as number) : model.nowS, workS: left, tailS: begun?.leaveS === undefined ? work.tailS : 0 };
}

function hasBegun(model: DayModel, t: number): ScheduledStop | undefined {
  const visit = model.problem.visits[model.legVisit[t] as number];
  const within = t - (model.legBase[model.legVisit[t] as number] as number);
  return begunStops(model).get(`${within} ${visit?.id}`);
}

const begunOfModel = new WeakMap<DayModel, ReadonlyMap<string, ScheduledStop>>();

function begunStops(model: DayModel): ReadonlyMap<string, ScheduledStop> {
  const begun = begunOfModel.get(model) ?? new Map((model.problem.frozen?.stops ?? []).map((s) => [`${s.stop} ${s.visit}`, s]));
  begunOfModel.set(model, begun);
  return begun;
}

/** The least time of any trip: lifting, carrying, setting down. */
function leastTrip(model: DayModel, paths: VisitPaths, made: readonly number[]): number {
  let least = UNKNOWN;
  for (const v of made) {
    for (const t of legsOf(model, v)) {
      const from = model.startLocation[v] as number;
      if (t > (model.legBase[v] as number)) { least = Math.min(least, paths.leastPickS + paths.leastDropS); continue; }
      for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) {
        const to = (model.stations[model.altStation[a] as number] as StationModel).location;
        least = Math.min(least, paths.leastPickS + paths.leastDropS + (model.loadedS[from * model.locationCount + to] as number));
      }
    }
  }
  return least;
}
