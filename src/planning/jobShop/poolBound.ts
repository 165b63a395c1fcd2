import type { JobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';

/** With more operations only the whole group is looked at, to stay within milliseconds. */
const MOST_PARTS = 200;

/**
 * For each group of places that some operation may choose from, the operations that can go nowhere else: their shortest
 * durations, the smallest heads before and the smallest tails after, shared by the places of the group. Also over any later
 * part of the group, by smallest head. Parallel machines with heads and tails: Carlier 1987, EJOR 29:298-306 (from memory, unverified).
 */
export function poolBound(model: ShopModel, { operationHead, operationTail, shortest }: JobPaths): number {
  const placesOf = Array.from({ length: model.count }, (_, o) => [...model.altPlace.subarray(model.altFirst[o]!, model.altFirst[o + 1]!)].sort((a, b) => a - b));
  const pools = new Map(placesOf.map((places) => [places.join(), new Set(places)]));
  pools.set('all', new Set(placesOf.flat()));
  let bound = 0;
  for (const pool of pools.values()) {
    const within = placesOf.flatMap((places, o) => (places.every((place) => pool.has(place)) ? [o] : []));
    const heads = within.sort((a, b) => operationHead[b]! - operationHead[a]!);
    const smallest = heads.length > MOST_PARTS ? heads.length : pool.size;
    for (let size = Math.max(smallest, pool.size); size <= heads.length; size += 1) bound = Math.max(bound, shared(heads.slice(0, size), pool.size));
  }
  return bound;

  function shared(operations: readonly number[], places: number): number {
    const least = (values: readonly number[]): number => [...values].sort((a, b) => a - b).slice(0, places).reduce((sum, value) => sum + value, 0);
    const work = operations.reduce((sum, o) => sum + shortest[o]!, 0);
    return Math.ceil((least(operations.map((o) => operationHead[o]!)) + work + least(operations.map((o) => operationTail[o]!))) / places);
  }
}
