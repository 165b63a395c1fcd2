import type { ShiftDay } from '../day/shiftDay.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { ScheduledStop, ScheduledTrip } from '../schedule/scheduleProblem.ts';
import { shiftS, type BuiltProblem } from './buildProblem.ts';
import type { DraftVisit } from './draftVisit.ts';

/** Time that a basin was on its way to its first stop, for the order of trips only, s. */
const ON_ITS_WAY_S = 90;

/**
 * What people were told of the rest of the day, in the form in which the scheduler takes an earlier schedule.
 */
export function toldSchedule(drafts: readonly DraftVisit[], built: BuiltProblem, day: ShiftDay): Schedule {
  const asked = new Set(built.problem.visits.map(({ id }) => id));
  const told = drafts.filter(({ visit, told: stops }) => stops !== undefined && asked.has(visit));
  return {
    stops: told.flatMap((draft) => toldStops(draft, day)).sort((a, b) => a.startS - b.startS || compare(a.visit, b.visit)),
    trips: told.flatMap((draft) => toldTrips(draft, day)).sort((a, b) => a.pickS - b.pickS || compare(a.visit, b.visit)),
    charges: [], visits: [], leftOut: [], finishS: 0, emptyTravelS: 0, loadedTravelS: 0, bound: { finishS: 0, binds: '', parts: {} }, gapPct: 0,
  };
}

function toldStops({ visit, told }: DraftVisit, day: ShiftDay): ScheduledStop[] {
  return told!.stops.map(({ stop, station, startAt, endAt }) => {
    const startS = shiftS(day, Date.parse(startAt));
    return { visit, stop, station, arriveS: startS, startS, endS: shiftS(day, Date.parse(endAt)) };
  });
}

/** Its trips as planned; where they were not written down, one to each stop and one to the berth, each when the work before is done. */
function toldTrips(draft: DraftVisit, day: ShiftDay): ScheduledTrip[] {
  const { trips } = draft.told!;
  if (trips.length > 0) return trips.map(({ leg, vehicle, pickAt, arriveAt }) => toTrip(draft.visit, leg, vehicle, shiftS(day, Date.parse(pickAt)), shiftS(day, Date.parse(arriveAt))));
  const stops = toldStops(draft, day);
  const picks = [stops[0]!.startS - ON_ITS_WAY_S, ...stops.map(({ endS }) => endS)];
  return picks.map((pickS, leg) => toTrip(draft.visit, leg, '', pickS, pickS));
}

const toTrip = (visit: string, leg: number, vehicle: string, pickS: number, arriveS: number): ScheduledTrip =>
  ({ visit, leg, vehicle, from: 0, to: 0, emptyFrom: 0, emptyDepartS: pickS, pickS, departS: pickS, arriveS });

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
