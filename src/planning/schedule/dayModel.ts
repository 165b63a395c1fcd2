/** A ScheduleProblem as flat arrays of numbers, for the decoder that lays out thousands of plans a second. */
import { cutBreaks, intersectSpans } from './openSpans.ts';
import type { ScheduleProblem, ScheduleStation, ScheduleVisit, TimeSpan } from './scheduleProblem.ts';

/** A time that is not known yet, or never comes. Larger than any time in a plan. */
export const UNKNOWN = 1 << 30;

/**
 * Legs are numbered through: leg `legBase[v] + i` brings visit v to its stop i, the last one to its berth.
 * Alternatives of the stop that leg t serves lie at altBase[t] .. altBase[t + 1] - 1.
 */
export interface DayModel {
  readonly problem: ScheduleProblem;
  readonly nowS: number;
  readonly locationCount: number;
  readonly emptyS: Int32Array;
  readonly loadedS: Int32Array;
  readonly stations: readonly StationModel[];
  readonly vehicleCount: number;
  readonly vehicleStart: Int32Array;
  readonly vehicleFromS: Int32Array;
  readonly vehicleToS: Int32Array;
  readonly pickS: Int32Array;
  readonly dropS: Int32Array;
  readonly crewPeople: readonly number[];
  readonly visitCount: number;
  readonly legCount: number;
  readonly legBase: Int32Array;
  readonly stopCount: Int32Array;
  readonly legVisit: Int32Array;
  readonly altBase: Int32Array;
  readonly altStation: Int32Array;
  readonly altServiceS: Int32Array;
  readonly notBeforeS: Int32Array;
  readonly stopDueS: Int32Array;
  readonly endByS: Int32Array;
  /** For each leg, the legs whose stops have to be done before. */
  readonly after: readonly (readonly number[])[];
  /** Visits whose first stop can go to the same stations are of one class: which, and the stations of each. */
  readonly firstStopClass: Int32Array;
  readonly firstStopClasses: readonly (readonly number[])[];
  readonly startLocation: Int32Array;
  readonly releaseS: Int32Array;
  readonly dueS: Int32Array;
  readonly deadlineS: Int32Array;
  readonly priority: Float64Array;
  readonly must: Uint8Array;
  /** Berths after the visit, best first as the problem lists them: [location, cost in seconds]. */
  readonly ends: readonly (readonly { readonly location: number; readonly costS: number }[])[];
  /** Index into berthPlaces of a location with limited room; -1: unlimited. */
  readonly berthOf: Int32Array;
  readonly berths: readonly { readonly location: number; readonly places: number; readonly taken: number }[];
  /** True where two stations could wait for each other's places, so that each move needs the check of safeState.ts. */
  readonly routesCycle: boolean;
}

export interface StationModel {
  readonly id: string;
  readonly kind: string;
  readonly location: number;
  readonly places: number;
  /** Basins at the station at once; UNKNOWN: unlimited. */
  readonly slots: number;
  /** Index of the crew, -1 without. */
  readonly crew: number;
  /** When work may happen: opening hours without breaks, within the crew's. */
  readonly open: readonly TimeSpan[];
}

export function buildDayModel(problem: ScheduleProblem): DayModel {
  const count = problem.locations.length;
  const stations = problem.stations.map((station) => modelStation(problem, station));
  const legs = layOutLegs(problem);
  const goals = new Set(problem.visits.flatMap((v) => [v.endLocation, ...(v.endChoices ?? []).map((c) => c.location)].filter((l) => l !== v.startLocation)));
  const berths = (problem.berths ?? []).filter((b) => goals.has(b.location)).map((b) => ({ location: b.location, places: b.places, taken: b.takenAtStart }));
  const berthOf = new Int32Array(count).fill(-1);
  berths.forEach((berth, index) => { berthOf[berth.location] = index; });
  const nowS = problem.frozen?.nowS ?? 0;
  const ofVehicles = (pick: (v: ScheduleProblem['vehicles'][number]) => number): Int32Array =>
    Int32Array.from(problem.vehicles, pick);
  const ofVisits = (pick: (v: ScheduleVisit) => number): Int32Array => Int32Array.from(problem.visits, pick);
  return {
    problem, nowS, locationCount: count,
    emptyS: flatten(problem.travelEmptyS), loadedS: flatten(problem.travelLoadedS),
    stations,
    vehicleCount: problem.vehicles.length,
    vehicleStart: ofVehicles((v) => v.startLocation),
    vehicleFromS: ofVehicles((v) => v.availableFromS), vehicleToS: ofVehicles((v) => v.availableToS),
    pickS: ofVehicles((v) => v.pickS), dropS: ofVehicles((v) => v.dropS),
    crewPeople: (problem.crews ?? []).map((crew) => crew.people),
    ...legs,
    ...classifyFirstStops(legs),
    startLocation: ofVisits((v) => v.startLocation),
    releaseS: ofVisits((v) => v.releaseS),
    dueS: ofVisits((v) => v.dueS ?? UNKNOWN), deadlineS: ofVisits((v) => v.deadlineS ?? UNKNOWN),
    priority: Float64Array.from(problem.visits, (v) => v.priority),
    must: Uint8Array.from(problem.visits, (v) => (v.must ? 1 : 0)),
    ends: problem.visits.map((v) => [{ location: v.endLocation, costS: 0 }, ...(v.endChoices ?? [])]),
    berthOf, berths,
    routesCycle: routesHaveCycle(problem),
  };
}

function flatten(matrix: readonly (readonly number[])[]): Int32Array {
  const flat = new Int32Array(matrix.length * matrix.length);
  matrix.forEach((row, i) => flat.set(row, i * matrix.length));
  return flat;
}

function modelStation(problem: ScheduleProblem, station: ScheduleStation): StationModel {
  const hours = cutBreaks({ fromS: station.openFromS, toS: station.openToS }, station.breaks);
  const crew = (problem.crews ?? []).findIndex((c) => c.id === station.crew);
  const people = problem.crews?.[crew];
  const open = people === undefined ? hours
    : intersectSpans(hours, cutBreaks({ fromS: people.fromS, toS: people.toS }, people.breaks));
  const slots = station.queuePlaces === null ? UNKNOWN : station.places + station.queuePlaces;
  return { id: station.id, kind: station.kind, location: station.location, places: station.places, slots, crew, open };
}

type Legs = Pick<DayModel, 'visitCount' | 'legCount' | 'legBase' | 'stopCount' | 'legVisit' | 'altBase' | 'altStation'
  | 'altServiceS' | 'notBeforeS' | 'stopDueS' | 'endByS' | 'after'>;

function layOutLegs(problem: ScheduleProblem): Legs {
  const visits = problem.visits;
  const visitCount = visits.length;
  const stopCount = Int32Array.from(visits, (v) => v.stops.length);
  const legBase = new Int32Array(visitCount + 1);
  for (let v = 0; v < visitCount; v++) legBase[v + 1] = (legBase[v] as number) + (stopCount[v] as number) + 1;
  const legCount = legBase[visitCount] as number;
  const visitIndex = new Map(visits.map((v, index) => [v.id, index]));
  const stationIndex = new Map(problem.stations.map((s, index) => [s.id, index]));
  const stopOfLeg = visits.flatMap((v) => [...v.stops, undefined]);
  const legVisit = Int32Array.from(visits.flatMap((v, index) => new Array<number>(v.stops.length + 1).fill(index)));
  const altBase = new Int32Array(legCount + 1);
  stopOfLeg.forEach((stop, t) => { altBase[t + 1] = (altBase[t] as number) + (stop?.alternatives.length ?? 0); });
  const alternatives = stopOfLeg.flatMap((stop) => stop?.alternatives ?? []);
  const legOf = (visit: string, stop: number): number => (legBase[visitIndex.get(visit) as number] as number) + stop;
  return {
    visitCount, legCount, legBase, stopCount, legVisit, altBase,
    altStation: Int32Array.from(alternatives, (a) => stationIndex.get(a.station) as number),
    altServiceS: Int32Array.from(alternatives, (a) => a.serviceS),
    notBeforeS: Int32Array.from(stopOfLeg, (stop) => stop?.notBeforeS ?? 0),
    stopDueS: Int32Array.from(stopOfLeg, (stop) => stop?.dueS ?? UNKNOWN),
    endByS: Int32Array.from(stopOfLeg, (stop) => stop?.endByS ?? UNKNOWN),
    after: stopOfLeg.map((stop) => (stop?.after ?? []).map((ref) => legOf(ref.visit, ref.stop))),
  };
}

function classifyFirstStops(legs: Legs): Pick<DayModel, 'firstStopClass' | 'firstStopClasses'> {
  const numbers = new Map<string, number>();
  const firstStopClasses: number[][] = [];
  const firstStopClass = new Int32Array(legs.visitCount);
  for (let v = 0; v < legs.visitCount; v++) {
    const t = legs.legBase[v] as number;
    const stations = [...legs.altStation.subarray(legs.altBase[t], legs.altBase[t + 1])];
    const known = numbers.get(stations.join()) ?? firstStopClasses.push(stations) - 1;
    numbers.set(stations.join(), known);
    firstStopClass[v] = known;
  }
  return { firstStopClass, firstStopClasses };
}

/**
 * Whether basins could block one another in a ring: some station can be reached again from itself along the routes of
 * the visits, or the order between visits could close such a ring. Stations with unlimited waiting places never block.
 */
function routesHaveCycle(problem: ScheduleProblem): boolean {
  const next = new Map<string, Set<string>>();
  const limited = new Set(problem.stations.filter((s) => s.queuePlaces !== null).map((s) => s.id));
  for (const visit of problem.visits) {
    visit.stops.forEach((stop, i) => {
      const following = visit.stops[i + 1];
      if (i > 0 && (stop.after?.length ?? 0) > 0) next.set('order', new Set(['order']));
      for (const a of stop.alternatives) for (const b of following?.alternatives ?? []) addStep(next, a.station, b.station);
    });
  }
  const visiting = new Set<string>();
  const done = new Set<string>();
  const closes = (station: string): boolean => {
    if (visiting.has(station)) return true;
    if (done.has(station)) return false;
    visiting.add(station);
    const ring = [...(next.get(station) ?? [])].some((to) => (limited.has(to) || to === 'order') && closes(to));
    visiting.delete(station);
    done.add(station);
    return ring;
  };
  return [...next.keys()].some((station) => (limited.has(station) || station === 'order') && closes(station));
}

function addStep(next: Map<string, Set<string>>, from: string, to: string): void {
  const targets = next.get(from) ?? new Set<string>();
  targets.add(to);
  next.set(from, targets);
}
