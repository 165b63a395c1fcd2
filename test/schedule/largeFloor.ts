/**
 * A day on a whole floor: 600 basins, ten stations, about 1,400 trips: three in five basins are filled, one in five is imaged,
 * one in five harvested, cleaned and filled again. Our own invention; the same seed gives the same day.
 */
import { seedRandom } from '../../src/planning/schedule/seededRandom.ts';
import type { ScheduleProblem, ScheduleStation, ScheduleStop, ScheduleVisit } from '../../src/planning/schedule/scheduleProblem.ts';

export interface LargeFloorOptions {
  readonly basins?: number;
  readonly vehicles?: number;
  /** All service times are multiplied by it: 1 makes the filling stations bind, 0.5 with six vehicles fills both. */
  readonly serviceShare?: number;
  /** null: any number may wait beside a station. */
  readonly queuePlaces?: number | null;
}

const DAY_S = 24 * 3600;
const STATIONS = [['fill', 3], ['image', 2], ['harvest', 3], ['clean', 2]] as const;
/** Least and most seconds of work. */
const SERVICE_S: Record<string, readonly [number, number]> = { fill: [150, 270], image: [60, 120], harvest: [200, 400], clean: [120, 240] };

export function largeFloor(seed: number, { basins = 600, vehicles = 12, serviceShare = 1, queuePlaces = 3 }: LargeFloorOptions = {}): ScheduleProblem {
  const random = seedRandom(seed);
  const names: string[] = [];
  const at: [number, number][] = [];
  const put = (name: string, x: number, y: number): number => { names.push(name); at.push([x, y]); return names.length - 1; };
  const stations = STATIONS.flatMap(([kind, count]) => Array.from({ length: count }, (_, n): ScheduleStation => ({
    id: `${kind}-${n + 1}`, kind, location: put(`door ${kind}-${n + 1}`, 6 * names.length, 0), places: 1, queuePlaces, openFromS: 0, openToS: DAY_S,
  })));
  const berths = Array.from({ length: basins }, (_, i) => put(`berth-${i}`, 2.4 * (i % 30), 4 + 1.6 * Math.floor(i / 30)));
  const matrix = (speedMS: number): number[][] => at.map(([x, y]) => at.map(([u, v]) => Math.ceil((Math.abs(x - u) + Math.abs(y - v)) / speedMS)));
  const stop = (kind: string): ScheduleStop => {
    const [least, most] = SERVICE_S[kind] as readonly [number, number];
    const serviceS = Math.round(serviceShare * (least + random.below(most - least + 1)));
    return { alternatives: stations.filter((s) => s.kind === kind).map((s) => ({ station: s.id, serviceS })) };
  };
  const visits = berths.map((berth, i): ScheduleVisit => {
    const route = i % 5 < 3 ? ['fill'] : i % 5 === 3 ? ['image'] : ['harvest', 'clean', 'fill'];
    return { id: `visit-${i}`, basin: `basin-${i}`, startLocation: berth, endLocation: berth, stops: route.map(stop), releaseS: 0, priority: 1, must: true, why: 'the whole floor is seen' };
  });
  return {
    locations: names, travelEmptyS: matrix(1.2), travelLoadedS: matrix(0.9), stations, visits,
    vehicles: Array.from({ length: vehicles }, (_, k) => ({ id: `vehicle-${k + 1}`, startLocation: (stations[k % stations.length] as ScheduleStation).location, availableFromS: 0, availableToS: DAY_S, pickS: 10, dropS: 10 })),
  };
}
