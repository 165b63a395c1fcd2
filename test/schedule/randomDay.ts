/**
 * Random days on random floors like ours: about 240 basins in two bays and a nursery, a handful of stations with few
 * places, a few vehicles, up to 60 visits; and random faults in the middle of such a day. The same seed gives the same day.
 */
import { seedRandom } from '../../src/planning/schedule/seededRandom.ts';
import type { SeededRandom } from '../../src/planning/schedule/seededRandom.ts';
import type { Schedule } from '../../src/planning/schedule/schedule.ts';
import type { FrozenWork, ScheduleProblem, ScheduleStation, ScheduleStop, ScheduleVehicle, ScheduleVisit } from '../../src/planning/schedule/scheduleProblem.ts';

export interface RandomDayOptions {
  readonly mostVisits?: number;
  readonly vehicles?: number;
}

const SHIFT_S = 9 * 3600;

export function randomDay(seed: number, options: RandomDayOptions = {}): ScheduleProblem {
  const random = seedRandom(seed);
  const chance = (p: number): boolean => random.next() < p;
  const pick = <T>(list: readonly T[]): T => list[random.below(list.length)] as T;
  const floor = randomFloor(random);
  const kinds = ['fill', 'image', 'transplant', 'harvest', 'wash'] as const;
  const withCrew = chance(0.4);
  const stations: ScheduleStation[] = [];
  kinds.forEach((kind, i) => {
    const count = chance(0.3) ? 2 : 1;
    for (let n = 1; n <= count; n++) {
      const location = floor.doors[(i + (n - 1) * 3) % floor.doors.length] as number;
      const from = chance(0.2) ? 1800 : 0;
      stations.push({
        id: `${kind}-${n}`, kind, location,
        places: 1 + random.below(2), queuePlaces: chance(0.12) ? null : random.below(3),
        openFromS: from, openToS: chance(0.2) ? SHIFT_S - 3600 : SHIFT_S,
        ...(chance(0.6) ? { breaks: [{ fromS: 10_800, toS: 12_600 }] } : {}),
        ...(withCrew && (kind === 'harvest' || kind === 'transplant') ? { crew: 'pickers' } : {}),
      });
    }
  });
  const vehicleCount = options.vehicles ?? 1 + random.below(3);
  const battery = chance(0.3);
  const vehicles: ScheduleVehicle[] = Array.from({ length: vehicleCount }, (_, k) => ({
    id: `vehicle-${k + 1}`, startLocation: floor.doors[k % floor.doors.length] as number,
    availableFromS: chance(0.2) ? 900 : 0, availableToS: chance(0.1) ? SHIFT_S - 5400 : SHIFT_S,
    pickS: 20 + random.below(20), dropS: 15 + random.below(20),
    ...(battery ? { battery: { capacityS: 5400, atStartS: 2400 + random.below(3000), reserveS: 300, chargeLocation: floor.doors[0] as number, gainSPerS: 3 } } : {}),
  }));
  const visits = randomVisits(random, floor, stations, 1 + random.below(options.mostVisits ?? 60));
  const berths = chance(0.5) ? limitBerths(floor, visits) : undefined;
  return {
    locations: floor.names, travelEmptyS: floor.emptyS, travelLoadedS: floor.loadedS, stations, vehicles,
    ...(withCrew ? { crews: [{ id: 'pickers', people: 1 + random.below(3), fromS: 0, toS: SHIFT_S, breaks: [{ fromS: 12_600, toS: 14_400 }] }] } : {}),
    ...(berths === undefined ? {} : { berths }),
    visits: pick([visits, visits]),
  };
}

interface Floor { readonly names: string[]; readonly emptyS: number[][]; readonly loadedS: number[][]; readonly doors: number[]; readonly berths: number[] }

/** Two bays of 96 and a nursery of 48 berths, station doors along the aisle between; travel along a grid. */
function randomFloor(random: SeededRandom): Floor {
  const names: string[] = [];
  const at: [number, number][] = [];
  const put = (name: string, x: number, y: number): number => { names.push(name); at.push([x, y]); return names.length - 1; };
  const doors = [0, 1, 2, 3, 4].map((i) => put(`door-${i}`, 10 + 12 * i, 20));
  const berths: number[] = [];
  for (let i = 0; i < 96; i++) berths.push(put(`north-${i}`, 3 * (i % 24), 26 + 4 * Math.floor(i / 24)));
  for (let i = 0; i < 96; i++) berths.push(put(`south-${i}`, 3 * (i % 24), 14 - 4 * Math.floor(i / 24)));
  for (let i = 0; i < 48; i++) berths.push(put(`nursery-${i}`, 76 + 3 * (i % 12), 20 + 4 * Math.floor(i / 12)));
  const emptySpeed = 0.8 + 0.4 * random.next();
  const loadedSpeed = 0.5 + 0.2 * random.next();
  const matrix = (speed: number): number[][] => at.map(([x, y]) => at.map(([u, v]) => Math.ceil((Math.abs(x - u) + Math.abs(y - v)) / speed)));
  return { names, emptyS: matrix(emptySpeed), loadedS: matrix(loadedSpeed), doors, berths };
}

const ROUTES: readonly (readonly string[])[] = [
  ['fill'], ['fill'], ['image'], ['image', 'fill'], ['harvest', 'wash', 'fill'], ['harvest', 'wash'], ['wash', 'fill', 'transplant'], ['fill', 'image'],
];
const SERVICE_S: Record<string, number> = { fill: 600, image: 150, transplant: 900, harvest: 1200, wash: 480 };

function randomVisits(random: SeededRandom, floor: Floor, stations: readonly ScheduleStation[], count: number): ScheduleVisit[] {
  const chance = (p: number): boolean => random.next() < p;
  const order = shuffle(random, floor.berths);
  const visits: ScheduleVisit[] = [];
  for (let i = 0; i < count; i++) {
    const start = order[i] as number;
    const route = ROUTES[random.below(ROUTES.length)] as readonly string[];
    const moves = chance(0.15) ? (order[order.length - 1 - i] as number) : start;
    visits.push({
      id: `V${i + 1}`, basin: `B${start}`, startLocation: start, endLocation: moves,
      ...(chance(0.1) ? { endChoices: [{ location: order[order.length - 70 - i] as number, costS: 30 }] } : {}),
      stops: route.map((kind) => randomStop(random, stations, kind)),
      releaseS: chance(0.2) ? random.below(7200) : 0,
      ...(chance(0.4) ? { dueS: 3600 + random.below(SHIFT_S - 3600) } : {}),
      ...(chance(0.15) ? { deadlineS: 7200 + random.below(SHIFT_S - 7200) } : {}),
      priority: 1 + random.below(5), must: chance(0.3), why: 'a random day',
    });
  }
  return addTransplantOrder(random, visits, stations);
}

function randomStop(random: SeededRandom, stations: readonly ScheduleStation[], kind: string): ScheduleStop {
  const chance = (p: number): boolean => random.next() < p;
  const base = (SERVICE_S[kind] as number) * (0.6 + 0.8 * random.next());
  const early = chance(0.08) ? 3600 + random.below(7200) : undefined;
  return {
    alternatives: stations.filter((s) => s.kind === kind).map((s) => ({ station: s.id, serviceS: Math.round(base * (0.8 + 0.4 * random.next())) })),
    ...(early === undefined ? {} : { notBeforeS: early }),
    ...(chance(0.08) ? { endByS: (early ?? 0) + 7200 + random.below(14_400) } : {}),
    ...(chance(0.1) ? { dueS: 7200 + random.below(14_400) } : {}),
  };
}

/** On some days one source basin is emptied of its plants before two to four target basins are planted. */
function addTransplantOrder(random: SeededRandom, visits: ScheduleVisit[], stations: readonly ScheduleStation[]): ScheduleVisit[] {
  if (random.next() < 0.5 || visits.length < 6) return visits;
  const targets = 2 + random.below(3);
  const source = visits[0] as ScheduleVisit;
  const first: ScheduleVisit = { ...source, stops: [randomStop(random, stations, 'transplant')] };
  const rest = visits.slice(1).map((visit, i): ScheduleVisit => {
    if (i >= targets) return visit;
    const plant = { ...randomStop(random, stations, 'transplant'), after: [{ visit: source.id, stop: 0 }] };
    return { ...visit, stops: i % 2 === 0 ? [plant] : [randomStop(random, stations, 'fill'), plant] };
  });
  return [first, ...rest];
}

function limitBerths(floor: Floor, visits: readonly ScheduleVisit[]): { location: number; places: number; takenAtStart: number }[] {
  const starts = new Set(visits.map((v) => v.startLocation));
  return floor.berths.map((location) => ({ location, places: 1, takenAtStart: starts.has(location) ? 1 : 0 }));
}

export function shuffle<T>(random: SeededRandom, list: readonly T[]): T[] {
  const mixed = [...list];
  for (let i = mixed.length - 1; i > 0; i--) {
    const j = random.below(i + 1);
    [mixed[i], mixed[j]] = [mixed[j] as T, mixed[i] as T];
  }
  return mixed;
}

/**
 * The same day at `nowS`, when something went wrong: what is done or under way by the plan is frozen, and one of: a
 * station out of work for a while or for good, a vehicle lost for a while, work under way that takes longer, a new
 * visit that must be made, a stop that failed.
 */
export function breakDay(seed: number, problem: ScheduleProblem, schedule: Schedule): ScheduleProblem {
  const random = seedRandom(seed + 7919);
  const nowS = Math.floor((0.15 + 0.6 * random.next()) * schedule.finishS);
  const frozen = freezeAt(problem, schedule, nowS);
  const kind = ['station', 'station gone', 'vehicle', 'delay', 'new visit', 'failed stop'][random.below(6)] as string;
  const broken: ScheduleProblem = { ...problem, frozen };
  if (kind === 'station' || kind === 'station gone') return stopStation(random, broken, nowS, kind === 'station' ? 5400 : SHIFT_S);
  if (kind === 'vehicle') return stopVehicle(random, broken, nowS);
  if (kind === 'delay') return { ...broken, frozen: delayWork(random, frozen) };
  if (kind === 'new visit') return addVisit(random, broken);
  const begun = frozen.stops.filter((s) => s.endS > nowS);
  return { ...broken, frozen: { ...frozen, givenUp: begun.slice(0, 1).map((s) => s.visit) } };
}

export function freezeAt(problem: ScheduleProblem, schedule: Schedule, nowS: number): FrozenWork {
  const trips = schedule.trips.filter((t) => t.emptyDepartS < nowS);
  const charges = schedule.charges.filter((c) => c.emptyDepartS < nowS);
  const stops = schedule.stops.filter((s) => s.startS < nowS).map((s) => {
    const taken = trips.some((t) => t.visit === s.visit && t.leg === s.stop + 1);
    const { leaveS, ...rest } = s;
    return taken && leaveS !== undefined ? { ...rest, leaveS } : rest;
  });
  const givenUp = problem.frozen?.givenUp;
  return { nowS, trips, stops, ...(charges.length > 0 ? { charges } : {}), ...(givenUp === undefined ? {} : { givenUp }) };
}

function stopStation(random: SeededRandom, problem: ScheduleProblem, nowS: number, lengthS: number): ScheduleProblem {
  const index = random.below(problem.stations.length);
  const pause = { fromS: nowS, toS: nowS + lengthS };
  return { ...problem, stations: problem.stations.map((s, i) => (i === index ? { ...s, breaks: [...(s.breaks ?? []), pause] } : s)) };
}

function stopVehicle(random: SeededRandom, problem: ScheduleProblem, nowS: number): ScheduleProblem {
  const index = random.below(problem.vehicles.length);
  return { ...problem, vehicles: problem.vehicles.map((v, i) => (i === index ? { ...v, availableFromS: nowS + 3600 } : v)) };
}

/** Every stop under way ends later than planned, unless a vehicle that has set off already will take the basin. */
function delayWork(random: SeededRandom, frozen: FrozenWork): FrozenWork {
  const stops = frozen.stops.map((s) => (s.endS > frozen.nowS && s.leaveS === undefined ? { ...s, endS: s.endS + 300 + random.below(1200) } : s));
  return { ...frozen, stops };
}

function addVisit(random: SeededRandom, problem: ScheduleProblem): ScheduleProblem {
  const used = new Set(problem.visits.flatMap((v) => [v.startLocation, v.endLocation, ...(v.endChoices ?? []).map((c) => c.location)]));
  const berth = problem.locations.findIndex((name, i) => !name.startsWith('door') && !used.has(i));
  if (berth < 0) return problem;
  const stop = randomStop(random, problem.stations, 'fill');
  const visit: ScheduleVisit = {
    id: 'V-new', basin: `B${berth}`, startLocation: berth, endLocation: berth, stops: [{ alternatives: stop.alternatives }],
    releaseS: problem.frozen?.nowS ?? 0, priority: 5, must: true, why: 'a late order',
  };
  const berths = problem.berths?.map((b) => (b.location === berth ? { ...b, takenAtStart: 1 } : b));
  return { ...problem, visits: [...problem.visits, visit], ...(berths === undefined ? {} : { berths }) };
}
