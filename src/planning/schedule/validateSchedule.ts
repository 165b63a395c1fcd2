/**
 * Checks a schedule against every rule of its problem by going through the events of each vehicle, station, crew and
 * berth in order of time. Used by the planner before it answers and on every plan that a person edits. What is frozen is
 * a fact and is not judged; what is planned is.
 */
import { indexPlan } from './planIndex.ts';
import type { PlanIndex } from './planIndex.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import type { ScheduleViolation } from './scheduleViolation.ts';
import { checkBerths, checkCrews, checkStation } from './validatePlaces.ts';
import { checkVehicle } from './validateVehicle.ts';
import { checkVisit } from './validateVisit.ts';

/** Empty when the schedule keeps every rule. */
export function validateSchedule(problem: ScheduleProblem, schedule: Schedule): ScheduleViolation[] {
  const index = indexPlan(problem, schedule);
  return [
    ...problem.visits.flatMap((visit) => checkVisit(index, visit)),
    ...problem.vehicles.flatMap((vehicle) => checkVehicle(problem, vehicle, schedule, index.isFrozenTrip)),
    ...problem.stations.flatMap((station) => checkStation(index, station)),
    ...checkCrews(index), ...checkBerths(index), ...checkPast(index), ...checkStrangers(index),
  ];
}

/** What is frozen is in the schedule unchanged, and nothing else begins before now. */
function checkPast(index: PlanIndex): ScheduleViolation[] {
  const { frozen } = index.problem;
  if (frozen === undefined) return [];
  const found: ScheduleViolation[] = [];
  const say = (visit: string, sentence: string): void => { found.push({ rule: 'past', visit, sentence: `Visit ${visit}: ${sentence}` }); };
  for (const trip of frozen.trips) {
    const kept = index.trips.get(trip.visit)?.find((t) => t.leg === trip.leg);
    const isSame = kept !== undefined && kept.vehicle === trip.vehicle && kept.from === trip.from && kept.to === trip.to && kept.toStation === trip.toStation
      && kept.emptyFrom === trip.emptyFrom && kept.emptyDepartS === trip.emptyDepartS && kept.pickS === trip.pickS && kept.departS === trip.departS && kept.arriveS === trip.arriveS;
    if (!isSame) say(trip.visit, 'a trip that was under way is changed.');
  }
  for (const stop of frozen.stops) {
    const kept = index.stops.get(stop.visit)?.find((s) => s.stop === stop.stop);
    const isSame = kept !== undefined && kept.station === stop.station && kept.arriveS === stop.arriveS && kept.startS === stop.startS && kept.endS === stop.endS
      && (stop.leaveS === undefined || kept.leaveS === stop.leaveS);
    if (!isSame) say(stop.visit, 'a stop that was under way is changed.');
  }
  for (const trip of index.schedule.trips) if (!index.isFrozenTrip(trip) && trip.emptyDepartS < frozen.nowS) say(trip.visit, 'a trip begins in the past.');
  for (const stop of index.schedule.stops) {
    if (index.isFrozenStop(stop)) continue;
    if (stop.startS < frozen.nowS) say(stop.visit, 'a stop begins in the past.');
    if (frozen.givenUp?.includes(stop.visit)) say(stop.visit, 'goes on although the rest of it was given up.');
  }
  return found;
}

function checkStrangers(index: PlanIndex): ScheduleViolation[] {
  const known = new Set(index.problem.visits.map((v) => v.id));
  const made = new Set(index.schedule.visits.map((v) => v.visit));
  const strangers = [...index.trips.keys(), ...index.stops.keys()].filter((visit) => !known.has(visit));
  const missing = index.problem.visits.filter((v) => !made.has(v.id) && !index.leftOut.has(v.id));
  return [
    ...[...new Set(strangers)].map((visit) => ({ rule: 'incomplete' as const, visit, sentence: `Visit ${visit} is not in the problem.` })),
    ...missing.map((v) => ({ rule: 'incomplete' as const, visit: v.id, sentence: `Visit ${v.id} is neither made nor left out with a reason.` })),
  ];
}
