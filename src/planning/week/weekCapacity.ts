import { STATION_KINDS, type GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Floor } from '../../greenhouse/state.ts';
import { shortestTravel } from '../../greenhouse/travel.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import { serviceS } from '../visits/stationTimes.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import type { ResourceId } from './weekView.ts';

/** A resource with the minutes that it has on each day and those that a visit takes of it. */
export interface Resource {
  readonly id: ResourceId;
  readonly title: string;
  readonly capacityMin: readonly number[];
  readonly minutesOf: (visit: Pick<ExpectedVisit, 'stops'>) => number;
}

const TITLES = { filling: 'Filling stations', imaging: 'Imaging stations', transplanting: 'Transplanting stations', harvest: 'Harvest stations', washing: 'Washing stations' } as const;
/** Berths from which ways are measured, evenly spread over the list. */
const SAMPLED_BERTHS = 40;

/**
 * Stations by kind (places x shift without breaks), their crew (people x shift without breaks) and vehicles (whole shift).
 * On the first day only what is left of the shift counts. A visit takes the mean time of the stations of a kind; a trip is
 * the mean way between berths and stations, once loaded and once empty, with lifting and setting down.
 */
export function weekResources(file: GreenhouseFile, floor: Floor, day: ShiftDay): Resource[] {
  const openMin = shiftMinutes(day, true);
  const kinds = STATION_KINDS.filter((kind) => file.stations.some((station) => station.kind === kind));
  const crewCost = new Map(kinds.map((kind) => [kind, mean(ofKind(file, kind).map(({ crew, places }) => crew / places))]));
  const stationMin = (stop: ExpectedVisit['stops'][number]): number => (crewCost.has(stop.kind) ? mean(ofKind(file, stop.kind).map((station) => serviceS(station, stop))) / 60 : 0);
  const tripMin = meanTripMin(file, floor);
  return [
    ...kinds.map((kind): Resource => ({
      id: kind, title: TITLES[kind], capacityMin: openMin.map((min) => min * sum(ofKind(file, kind).map(({ places }) => places))),
      minutesOf: ({ stops }) => sum(stops.filter((stop) => stop.kind === kind).map(stationMin)),
    })),
    { id: 'crew', title: 'Crew of the stations', capacityMin: openMin.map((min) => min * sum(file.stations.map(({ crew }) => crew))), minutesOf: ({ stops }) => sum(stops.map((stop) => stationMin(stop) * (crewCost.get(stop.kind) ?? 0))) },
    { id: 'vehicles', title: 'Vehicles', capacityMin: shiftMinutes(day, false).map((min) => min * file.vehicles.length), minutesOf: ({ stops }) => (stops.length + 1) * tripMin },
  ];
}

const ofKind = (file: GreenhouseFile, kind: string) => file.stations.filter((station) => station.kind === kind);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const mean = (values: readonly number[]): number => (values.length === 0 ? 0 : sum(values) / values.length);

/** Minutes of each day's shift; of the first day only from the instant of the plan on. */
function shiftMinutes({ startMs, endMs, atMs, breaks }: ShiftDay, withoutBreaks: boolean): number[] {
  const from = (ms: number) => (Math.max(0, endMs - ms) - (withoutBreaks ? sum(breaks.map(({ fromMs, toMs }) => Math.max(0, toMs - Math.max(ms, fromMs)))) : 0)) / 60_000;
  return Array.from({ length: WEEK_DAYS }, (_, i) => from(i === 0 ? Math.max(startMs, atMs) : startMs));
}

/** Minutes of a vehicle for one trip with a basin and the empty way to it. */
function meanTripMin(file: GreenhouseFile, floor: Floor): number {
  const nodes = [...new Set(floor.berths.map(({ node }) => node))];
  const every = Math.max(1, Math.ceil(nodes.length / SAMPLED_BERTHS));
  const berths = nodes.filter((_, i) => i % every === 0);
  const stations = [...new Set(file.stations.map(({ node }) => node))];
  const { metres } = shortestTravel(floor, [...stations, ...berths]);
  const ways = stations.flatMap((_, s) => berths.flatMap((__, b) => [metres[s]![stations.length + b]!, metres[stations.length + b]![s]!])).filter(Number.isFinite);
  const way = mean(ways);
  return mean(file.vehicles.map(({ speedEmptyMS, speedLoadedMS, pickS, dropS }) => way / speedEmptyMS + way / speedLoadedMS + pickS + dropS)) / 60;
}
