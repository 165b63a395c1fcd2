/** The same day with one thing more: a vehicle, a place at a station, half an hour. */
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';

export interface WidenedProblem {
  readonly what: 'vehicle' | 'place' | 'half hour';
  /** Kind of stations that gets the place. */
  readonly kind?: string;
  readonly problem: ScheduleProblem;
}

/** A copy of the first vehicle, from the same home. */
export function withVehicle(problem: ScheduleProblem): WidenedProblem | undefined {
  const [first] = problem.vehicles;
  if (first === undefined) return undefined;
  return { what: 'vehicle', problem: { ...problem, vehicles: [...problem.vehicles, { ...first, id: `${first.id} again` }] } };
}

/** One more place at the busiest station of the kind whose places work longest in the schedule. */
export function withPlace(problem: ScheduleProblem, schedule: Schedule): WidenedProblem | undefined {
  const workS = new Map<string, number>();
  for (const { station, startS, endS } of schedule.stops) workS.set(station, (workS.get(station) ?? 0) + endS - startS);
  const loadOf = (stations: ScheduleProblem['stations']) => stations.reduce((sum, { id }) => sum + (workS.get(id) ?? 0), 0) / stations.reduce((sum, { places }) => sum + places, 0);
  const kinds = [...new Set(problem.stations.map(({ kind }) => kind))].map((kind) => problem.stations.filter((station) => station.kind === kind));
  const busiest = mostOf(kinds, loadOf);
  const widened = busiest === undefined ? undefined : mostOf(busiest, (station) => loadOf([station]));
  if (widened === undefined || loadOf([widened]) === 0) return undefined;
  const stations = problem.stations.map((station) => (station === widened ? { ...station, places: station.places + 1 } : station));
  return { what: 'place', kind: widened.kind, problem: { ...problem, stations } };
}

/** Stations, vehicles and crews half an hour longer. */
export function withHalfHour(problem: ScheduleProblem): WidenedProblem {
  return {
    what: 'half hour',
    problem: {
      ...problem,
      stations: problem.stations.map((station) => ({ ...station, openToS: station.openToS + HALF_HOUR_S })),
      vehicles: problem.vehicles.map((vehicle) => ({ ...vehicle, availableToS: vehicle.availableToS + HALF_HOUR_S })),
      ...(problem.crews === undefined ? {} : { crews: problem.crews.map((crew) => ({ ...crew, toS: crew.toS + HALF_HOUR_S })) }),
    },
  };
}

const HALF_HOUR_S = 1800;

/** The first of those with the most. */
function mostOf<T>(all: readonly T[], measure: (one: T) => number): T | undefined {
  return all.reduce<T | undefined>((best, one) => (best === undefined || measure(one) > measure(best) ? one : best), undefined);
}
