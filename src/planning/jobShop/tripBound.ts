import { assignLeast } from '../schedule/assignLeast.ts';
import type { JobPaths } from './jobPaths.ts';
import { shortestWays } from './shortestWays.ts';
import type { ShopModel } from './shopModel.ts';

/** Above this many trips the empty travel is left out, since the assignment takes cubic time. */
const MOST_TRIPS = 500;

interface Trip {
  readonly operation: number;
  readonly job: number;
  readonly origins: readonly number[];
  readonly targets: readonly number[];
  readonly leastTicks: number;
  /** The job cannot leave earlier. */
  readonly readyTicks: number;
  /** From its arrival to the end of its job, at least. */
  readonly tailTicks: number;
}

/**
 * Every trip that no choice of places avoids follows another trip, or is the first of a vehicle: the least empty travel over
 * all such pairings (an assignment), the loaded travel, and the job's rest after each vehicle's last trip, shared by the
 * vehicles. A vehicle that carries a job twice in a row waits while the job is worked on.
 */
export function tripBound(model: ShopModel, paths: JobPaths): number {
  const trips = needfulTrips(model, paths);
  if (model.vehicles === 0 || trips.length === 0) return 0;
  const vehicles = Math.min(model.vehicles, trips.length);
  const loaded = trips.reduce((sum, trip) => sum + trip.leastTicks, 0);
  const between = trips.length > MOST_TRIPS ? 0 : leastBetween(model, trips, vehicles);
  return Math.ceil((loaded + between) / model.vehicles);
}

function needfulTrips(model: ShopModel, { head, tail, operationHead }: JobPaths): Trip[] {
  const { count, jobOf, jobFirst, altFirst, altPlace, altTicks, travel, places, startPlace } = model;
  const trips: Trip[] = [];
  for (let o = 0; o < count; o += 1) {
    const isFirst = o === jobFirst[jobOf[o]!];
    const origins = isFirst ? [startPlace] : [...altPlace.subarray(altFirst[o - 1]!, altFirst[o]!)];
    const alternatives = Array.from({ length: altFirst[o + 1]! - altFirst[o]! }, (_, i) => altFirst[o]! + i);
    const targets = alternatives.map((a) => altPlace[a]!);
    if (targets.some((place) => origins.includes(place))) continue;
    const leastTicks = Math.min(...origins.flatMap((from) => targets.map((to) => travel[from * places + to]!)));
    const readyTicks = isFirst ? 0 : Math.min(...Array.from({ length: altFirst[o]! - altFirst[o - 1]! }, (_, i) => head[altFirst[o - 1]! + i]! + altTicks[altFirst[o - 1]! + i]!));
    trips.push({ operation: o, job: jobOf[o]!, origins, targets, leastTicks, readyTicks: Math.min(readyTicks, operationHead[o]!), tailTicks: Math.min(...alternatives.map((a) => altTicks[a]! + tail[a]!)) });
  }
  return trips;
}

function leastBetween(model: ShopModel, trips: readonly Trip[], vehicles: number): number {
  const ways = shortestWays(model);
  const { places, startPlace, altTicks, altFirst } = model;
  const way = (from: readonly number[], to: readonly number[]): number => Math.min(...from.flatMap((a) => to.map((b) => ways[a * places + b]!)));
  const n = trips.length;
  const shortest = trips.map(({ operation }) => Math.min(...altTicks.subarray(altFirst[operation]!, altFirst[operation + 1]!)));
  const size = n + vehicles;
  const costs = new Float64Array(size * size);
  for (let i = 0; i < size; i += 1) for (let j = 0; j < size; j += 1) costs[i * size + j] = cost(i, j);
  return assignLeast(size, size, (row, column) => costs[row * size + column]!) ?? 0;

  /** Rows: after trip i, or from a vehicle's start. Columns: before trip j, or a vehicle's end. */
  function cost(i: number, j: number): number {
    if (i >= n) return j >= n ? 0 : Math.max(way([startPlace], trips[j]!.origins), trips[j]!.readyTicks);
    if (j >= n) return trips[i]!.tailTicks;
    if (trips[i]!.job !== trips[j]!.job) return way(trips[i]!.targets, trips[j]!.origins);
    if (trips[j]!.operation <= trips[i]!.operation) return Infinity;
    return trips[j]!.operation === trips[i]!.operation + 1 ? shortest[i]! : way(trips[i]!.targets, trips[j]!.origins);
  }
}
