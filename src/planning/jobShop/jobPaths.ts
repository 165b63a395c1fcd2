import type { ShopModel } from './shopModel.ts';

/** How early each alternative can begin, and how long it takes at least from its end to the end of its job; as if each job were alone. */
export interface JobPaths {
  /** By alternative: ticks before its start (arrived). */
  readonly head: Int32Array;
  /** By alternative: ticks after its end. */
  readonly tail: Int32Array;
  /** By operation: the least of its alternatives. */
  readonly operationHead: Int32Array;
  readonly operationTail: Int32Array;
  /** By operation: shortest duration. */
  readonly shortest: Int32Array;
  /** The longest job on its shortest path. */
  readonly longestJob: number;
}

/** Shortest paths of each job through its alternatives. */
export function jobPaths(model: ShopModel): JobPaths {
  const { count, altFirst, altPlace, altTicks, jobFirst, jobs, travel, places, startPlace } = model;
  const alternatives = altPlace.length;
  const [head, tail] = [new Int32Array(alternatives), new Int32Array(alternatives)];
  const [operationHead, operationTail, shortest] = [new Int32Array(count), new Int32Array(count), new Int32Array(count)];
  let longestJob = 0;
  for (let j = 0; j < jobs; j += 1) {
    const [first, end] = [jobFirst[j]!, jobFirst[j + 1]!];
    for (let o = first; o < end; o += 1) {
      for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
        let least = o === first ? travel[startPlace * places + altPlace[a]!]! : 2 ** 30;
        if (o > first) for (let b = altFirst[o - 1]!; b < altFirst[o]!; b += 1) least = Math.min(least, head[b]! + altTicks[b]! + travel[altPlace[b]! * places + altPlace[a]!]!);
        head[a] = least;
      }
      operationHead[o] = leastOf(head, altFirst[o]!, altFirst[o + 1]!);
      shortest[o] = leastOf(altTicks, altFirst[o]!, altFirst[o + 1]!);
    }
    for (let o = end - 1; o >= first; o -= 1) {
      for (let a = altFirst[o]!; a < altFirst[o + 1]!; a += 1) {
        let least = o === end - 1 ? 0 : 2 ** 30;
        if (o < end - 1) for (let b = altFirst[o + 1]!; b < altFirst[o + 2]!; b += 1) least = Math.min(least, tail[b]! + altTicks[b]! + travel[altPlace[a]! * places + altPlace[b]!]!);
        tail[a] = least;
      }
      operationTail[o] = leastOf(tail, altFirst[o]!, altFirst[o + 1]!);
    }
    let path = 2 ** 30;
    for (let a = altFirst[first]!; a < altFirst[first + 1]!; a += 1) path = Math.min(path, head[a]! + altTicks[a]! + tail[a]!);
    longestJob = Math.max(longestJob, path);
  }
  return { head, tail, operationHead, operationTail, shortest, longestJob };
}

function leastOf(values: Int32Array, from: number, to: number): number {
  let least = values[from]!;
  for (let i = from + 1; i < to; i += 1) least = Math.min(least, values[i]!);
  return least;
}
