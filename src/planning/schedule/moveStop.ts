/** A schedule with one stop at another time or station, as a person drags it: the basin's own walk follows, nothing else moves. */
import type { Schedule, VisitOutcome } from './schedule.ts';
import type { ScheduledCharge, ScheduledStop, ScheduledTrip, ScheduleProblem, ScheduleVisit } from './scheduleProblem.ts';

export interface StopMove {
  readonly visit: string;
  /** Index of the stop within the visit. */
  readonly stop: number;
  readonly station: string;
  /** Work begins, s from the start of the shift. */
  readonly startS: number;
}

/** How the ways of the moved basin follow where there is a choice. */
export interface MoveWay {
  /** Carries the basin to the stop and away from it; the vehicles of the plan where absent. */
  readonly vehicle?: string;
  /** The basin is brought as planned where that is early enough and to the same station, and waits there; else just in time. */
  readonly broughtAsPlanned: boolean;
  /** The basin is fetched as planned where it is ready by then; else as soon after its work as planned before. */
  readonly fetchedAsPlanned: boolean;
}

/**
 * Later stops of the visit wait for the basin; they are never brought forward. The empty ways of the vehicles concerned are worked out anew. Nothing is
 * checked: validateSchedule says what the edited schedule breaks. The visit has to be one that the schedule makes.
 */
export function moveStop(problem: ScheduleProblem, schedule: Schedule, move: StopMove, way: MoveWay): Schedule {
  const visit = problem.visits.find(({ id }) => id === move.visit);
  const outcome = schedule.visits.find((is) => is.visit === move.visit);
  if (visit === undefined || outcome === undefined) throw new Error(`the schedule does not make visit ${move.visit}`);
  const walk = moveWalk(problem, visit, schedule, move, way);
  const isOther = (of: { readonly visit: string }): boolean => of.visit !== move.visit;
  const trips = [...schedule.trips.filter(isOther), ...walk.trips].sort((a, b) => a.pickS - b.pickS || (a.vehicle < b.vehicle ? -1 : 1));
  const stops = [...schedule.stops.filter(isOther), ...walk.stops].sort((a, b) => a.startS - b.startS || (a.station < b.station ? -1 : 1));
  const visits = schedule.visits.map((is) => (isOther(is) ? is : outcomeOf(is, visit, walk)));
  const linked = relink(problem, trips, schedule);
  return { ...schedule, ...linked, ...travelOf(problem, linked), stops, visits, finishS: visits.reduce((last, { backS }) => Math.max(last, backS), 0) };
}

function travelOf({ travelEmptyS, travelLoadedS }: ScheduleProblem, { trips, charges }: Pick<Schedule, 'trips' | 'charges'>): Pick<Schedule, 'emptyTravelS' | 'loadedTravelS'> {
  return {
    emptyTravelS: trips.reduce((sum, { emptyFrom, from }) => sum + travelEmptyS[emptyFrom]![from]!, 0) + charges.reduce((sum, { emptyFrom, location }) => sum + travelEmptyS[emptyFrom]![location]!, 0),
    loadedTravelS: trips.reduce((sum, { from, to }) => sum + travelLoadedS[from]![to]!, 0),
  };
}

interface Walk { readonly trips: ScheduledTrip[]; readonly stops: ScheduledStop[] }

function moveWalk(problem: ScheduleProblem, visit: ScheduleVisit, schedule: Schedule, move: StopMove, way: MoveWay): Walk {
  const trips = schedule.trips.filter((is) => is.visit === visit.id).sort((a, b) => a.leg - b.leg);
  const stops = schedule.stops.filter((is) => is.visit === visit.id).sort((a, b) => a.stop - b.stop);
  const at = stops.findIndex(({ stop }) => stop === move.stop);
  const old = stops[at];
  if (old === undefined) throw new Error(`visit ${visit.id} does not make stop ${move.stop}`);
  const bring = bringTo(problem, trips[at]!, move, way);
  const endS = move.startS + (visit.stops[move.stop]?.alternatives.find(({ station }) => station === move.station)?.serviceS ?? old.endS - old.startS);
  const walk: Walk = { trips: [...trips.slice(0, at), bring], stops: stops.slice(0, at) };
  let last: ScheduledStop = { ...old, station: move.station, arriveS: bring.arriveS, startS: move.startS, endS };
  for (let i = at + 1; i < trips.length; i++) {
    const fetch = fetchFrom(problem, trips[i]!, last, stops[i - 1]!, bring.to, i === at + 1 ? way : { broughtAsPlanned: true, fetchedAsPlanned: true });
    walk.stops.push({ ...last, leaveS: fetch.departS });
    walk.trips.push(fetch);
    const next = stops[i];
    if (next !== undefined) last = pushed(next, fetch.arriveS);
  }
  return { trips: walk.trips, stops: leavesAgain(walk.stops, walk.trips) };
}

function bringTo(problem: ScheduleProblem, trip: ScheduledTrip, move: StopMove, way: MoveWay): ScheduledTrip {
  const vehicle = way.vehicle ?? trip.vehicle;
  if (way.broughtAsPlanned && trip.toStation === move.station && trip.arriveS <= move.startS && vehicle === trip.vehicle) return trip;
  const { pickS: liftS, dropS } = problem.vehicles.find(({ id }) => id === vehicle)!;
  const to = problem.stations.find(({ id }) => id === move.station)?.location ?? trip.to;
  const departS = move.startS - dropS - problem.travelLoadedS[trip.from]![to]!;
  return { ...trip, vehicle, to, toStation: move.station, pickS: departS - liftS, departS, arriveS: move.startS };
}

/** From the stop as it is now; `before`: as it was. `place`: where the moved stop is. */
function fetchFrom(problem: ScheduleProblem, trip: ScheduledTrip, stop: ScheduledStop, before: ScheduledStop, place: number, way: MoveWay): ScheduledTrip {
  const from = stop.station === before.station ? trip.from : place;
  const vehicle = way.vehicle ?? trip.vehicle;
  const isAsPlanned = way.fetchedAsPlanned && trip.pickS >= stop.endS;
  if (isAsPlanned && from === trip.from && vehicle === trip.vehicle) return trip;
  const { pickS: liftS, dropS } = problem.vehicles.find(({ id }) => id === vehicle)!;
  const pickS = isAsPlanned ? trip.pickS : stop.endS + Math.max(0, trip.pickS - before.endS);
  const departS = pickS + liftS;
  return { ...trip, vehicle, from, pickS, departS, arriveS: departS + problem.travelLoadedS[from]![trip.to]! + dropS };
}

/** A later stop waits until the basin is there. */
function pushed(stop: ScheduledStop, arriveS: number): ScheduledStop {
  const startS = Math.max(stop.startS, arriveS);
  return { ...stop, arriveS, startS, endS: startS + stop.endS - stop.startS };
}

const leavesAgain = (stops: readonly ScheduledStop[], trips: readonly ScheduledTrip[]): ScheduledStop[] =>
  stops.map((stop) => { const leaveS = trips.find(({ leg }) => leg === stop.stop + 1)?.departS; return leaveS === undefined ? stop : { ...stop, leaveS }; });

function outcomeOf(outcome: VisitOutcome, visit: ScheduleVisit, { trips, stops }: Walk): VisitOutcome {
  const backS = trips.at(-1)!.arriveS;
  const late = [backS - (visit.dueS ?? Infinity), ...stops.map(({ stop, endS }) => endS - (visit.stops[stop]?.dueS ?? Infinity))];
  return { ...outcome, leavesS: trips[0]!.departS, backS, latenessS: Math.max(0, ...late) };
}

/** Empty ways of each vehicle in the new order of its work: it sets off as late as it can where what came before has changed. */
function relink(problem: ScheduleProblem, trips: readonly ScheduledTrip[], { charges }: Schedule): { trips: ScheduledTrip[]; charges: ScheduledCharge[] } {
  const linked: { trips: ScheduledTrip[]; charges: ScheduledCharge[] } = { trips: [...trips], charges: [...charges] };
  for (const vehicle of problem.vehicles) {
    const jobs = [
      ...linked.trips.flatMap((trip, i) => (trip.vehicle === vehicle.id ? [{ at: trip.from, beginS: trip.pickS, to: trip.to, job: trip, put: (link: Link) => { linked.trips[i] = { ...trip, ...link }; } }] : [])),
      ...linked.charges.flatMap((charge, i) => (charge.vehicle === vehicle.id ? [{ at: charge.location, beginS: charge.fromS, to: charge.location, job: charge, put: (link: Link) => { linked.charges[i] = { ...charge, ...link }; } }] : [])),
    ].sort((a, b) => a.beginS - b.beginS);
    let stands = vehicle.startLocation;
    for (const { at, beginS, to, job, put } of jobs) {
      const arrivesS = job.emptyDepartS + problem.travelEmptyS[job.emptyFrom]![at]!;
      if (job.emptyFrom !== stands || arrivesS > beginS) put({ emptyFrom: stands, emptyDepartS: beginS - problem.travelEmptyS[stands]![at]! });
      stands = to;
    }
  }
  return linked;
}

interface Link { readonly emptyFrom: number; readonly emptyDepartS: number }
