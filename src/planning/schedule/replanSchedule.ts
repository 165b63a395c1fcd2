/** Plans the rest of a day again: what is under way stays, and people's lists change as little as is worth it. */
import { constructDay, layOut } from './constructDay.ts';
import type { KnownPlan } from './constructDay.ts';
import { fitWork } from './dayFloor.ts';
import type { ToldStops } from './dayFloor.ts';
import { buildDayModel } from './dayModel.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import type { PlanOptions } from './planSchedule.ts';
import { finishPlan, improveDay } from './planSchedule.ts';
import { compareAims } from './dayAims.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import { seedRandom } from './seededRandom.ts';
import { FIRST_WEIGHTS } from './tripScores.ts';
import type { TripScore } from './tripScores.ts';

export interface ReplanOptions extends PlanOptions {
  /** One stop that changes counts like so many seconds of later finish; 120 unless told. */
  readonly changeCostS?: number;
  /** A stop that begins this much earlier or later is no change; 600 unless told. */
  readonly toleranceS?: number;
}

/** Stops of the previous schedule that are at another station, at another time by more than the tolerance, or gone; and new ones. */
export interface ScheduleChange {
  readonly visit: string;
  readonly stop: number;
  readonly kind: 'moved' | 'other station' | 'dropped' | 'new';
  readonly byS?: number;
  readonly station?: string;
}

/**
 * `problem.frozen` says what has begun by now. Starts from the previous order of work, mends it, and improves it with
 * each change of what people have been told weighed against the finish. Deterministic like planSchedule.
 */
export function replanSchedule(problem: ScheduleProblem, previous: Schedule, options: ReplanOptions): Schedule {
  const model = buildDayModel(keepBerths(problem, previous));
  const random = seedRandom(options.seed);
  const told = readTold(model, previous, options.toleranceS ?? 600);
  const known: KnownPlan = { told, changeS: options.changeCostS ?? 120 };
  const mended = layOut(model, scoreByOrder(model, previous), known, keepStations(model, told));
  const fresh = constructDay(model, FIRST_WEIGHTS.slice(0, 2), random, 0, known);
  const first = compareAims(fresh.aims, mended.aims) < 0 ? fresh : mended;
  return finishPlan(model, improveDay(model, first, random, options, known));
}

/** A basin under way goes to the berth that it was promised. */
function keepBerths(problem: ScheduleProblem, previous: Schedule): ScheduleProblem {
  const begun = new Set((problem.frozen?.trips ?? []).map((t) => t.visit));
  const promised = new Map(previous.visits.map((v) => [v.visit, v.endLocation]));
  const visits = problem.visits.map((visit) => {
    const endLocation = promised.get(visit.id);
    if (!begun.has(visit.id) || endLocation === undefined || endLocation === visit.endLocation) return visit;
    const { endChoices: _settled, ...rest } = visit;
    return { ...rest, endLocation };
  });
  return { ...problem, visits };
}

function readTold(model: DayModel, previous: Schedule, toleranceS: number): ToldStops {
  const told = { station: new Int16Array(model.legCount).fill(-1), startS: new Int32Array(model.legCount), toleranceS };
  const visits = new Map(model.problem.visits.map((v, i) => [v.id, i]));
  const stations = new Map(model.stations.map((s, i) => [s.id, i]));
  for (const stop of previous.stops) {
    const v = visits.get(stop.visit);
    if (v === undefined || stop.startS < model.nowS || stop.stop >= (model.stopCount[v] as number)) continue;
    const t = (model.legBase[v] as number) + stop.stop;
    told.station[t] = stations.get(stop.station) ?? -1;
    told.startS[t] = stop.startS;
  }
  return told;
}

/** Stations that people were told, where the work still fits there about when they were told. */
function keepStations(model: DayModel, told: ToldStops): Int16Array {
  const genes = new Int16Array(model.legCount).fill(-1);
  for (let t = 0; t < model.legCount; t++) {
    for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) {
      if (model.altStation[a] !== told.station[t]) continue;
      const { open } = model.stations[told.station[t] as number] as StationModel;
      const start = fitWork(open, told.startS[t] as number, model.altServiceS[a] as number);
      if (start <= (told.startS[t] as number) + told.toleranceS) genes[t] = a - (model.altBase[t] as number);
    }
  }
  return genes;
}

/** Trips in order of time, each put off a little for every planned one that it would overtake. */
function scoreByOrder(model: DayModel, previous: Schedule): TripScore {
  const visits = new Map(model.problem.visits.map((v, i) => [v.id, i]));
  const rank = new Float64Array(model.legCount).fill(-1);
  previous.trips.forEach((trip, i) => {
    const v = visits.get(trip.visit);
    if (v !== undefined && trip.leg <= (model.stopCount[v] as number)) rank[(model.legBase[v] as number) + trip.leg] = i;
  });
  const frozen = model.problem.frozen?.trips.length ?? 0;
  return (decoder, made) => {
    const { candidate: c } = decoder;
    const planned = rank[c.leg] as number;
    return c.pickS + (planned < 0 ? 0 : OVERTAKING_S * (planned - frozen - made.length));
  };
}

const OVERTAKING_S = 60;

/** What a new schedule changes of the stops that have not begun by `nowS`, in order of visit and stop. */
export function listChanges(previous: Schedule, next: Schedule, nowS: number, toleranceS = 600): ScheduleChange[] {
  const key = (stop: { visit: string; stop: number }): string => `${stop.visit} ${stop.stop}`;
  const before = new Map(previous.stops.map((s) => [key(s), s]));
  const after = new Map(next.stops.map((s) => [key(s), s]));
  const changes: ScheduleChange[] = [];
  for (const [name, old] of before) {
    const stop = after.get(name);
    if (stop === undefined) changes.push({ visit: old.visit, stop: old.stop, kind: 'dropped' });
    else if (stop.station !== old.station) changes.push({ visit: old.visit, stop: old.stop, kind: 'other station', station: stop.station, byS: stop.startS - old.startS });
    else if (old.startS >= nowS && Math.abs(stop.startS - old.startS) > toleranceS) changes.push({ visit: old.visit, stop: old.stop, kind: 'moved', byS: stop.startS - old.startS });
  }
  for (const [name, stop] of after) if (!before.has(name)) changes.push({ visit: stop.visit, stop: stop.stop, kind: 'new', station: stop.station });
  return changes.sort((a, b) => (a.visit < b.visit ? -1 : a.visit > b.visit ? 1 : a.stop - b.stop));
}
