/** A schedule beside its problem, sorted for checking. */
import type { Schedule } from './schedule.ts';
import type { ScheduledStop, ScheduledTrip, ScheduleProblem, ScheduleStation, ScheduleVehicle, TimeSpan } from './scheduleProblem.ts';

export interface PlanIndex {
  readonly problem: ScheduleProblem;
  readonly schedule: Schedule;
  readonly stations: ReadonlyMap<string, ScheduleStation>;
  readonly vehicles: ReadonlyMap<string, ScheduleVehicle>;
  readonly trips: ReadonlyMap<string, readonly ScheduledTrip[]>;
  readonly stops: ReadonlyMap<string, readonly ScheduledStop[]>;
  readonly leftOut: ReadonlySet<string>;
  readonly isFrozenTrip: (trip: ScheduledTrip) => boolean;
  readonly isFrozenStop: (stop: ScheduledStop) => boolean;
}

export function indexPlan(problem: ScheduleProblem, schedule: Schedule): PlanIndex {
  const frozenTrips = new Set((problem.frozen?.trips ?? []).map((t) => `${t.leg} ${t.visit}`));
  const frozenStops = new Set((problem.frozen?.stops ?? []).map((s) => `${s.stop} ${s.visit}`));
  return {
    problem, schedule,
    stations: new Map(problem.stations.map((s) => [s.id, s])),
    vehicles: new Map(problem.vehicles.map((v) => [v.id, v])),
    trips: groupByVisit(schedule.trips, (a, b) => a.leg - b.leg),
    stops: groupByVisit(schedule.stops, (a, b) => a.stop - b.stop),
    leftOut: new Set(schedule.leftOut.map((v) => v.visit)),
    isFrozenTrip: (trip) => frozenTrips.has(`${trip.leg} ${trip.visit}`),
    isFrozenStop: (stop) => frozenStops.has(`${stop.stop} ${stop.visit}`),
  };
}

function groupByVisit<T extends { visit: string }>(items: readonly T[], order: (a: T, b: T) => number): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) groups.set(item.visit, [...(groups.get(item.visit) ?? []), item]);
  for (const group of groups.values()) group.sort(order);
  return groups;
}

/** Whether the work of the stop lies inside the hours and outside every break. */
export function isOpen(hours: { openFromS: number; openToS: number; breaks?: readonly TimeSpan[] }, stop: ScheduledStop): boolean {
  return stop.startS >= hours.openFromS && stop.endS <= hours.openToS
    && (hours.breaks ?? []).every((pause) => pause.toS <= pause.fromS || stop.endS <= pause.fromS || stop.startS >= pause.toS);
}
