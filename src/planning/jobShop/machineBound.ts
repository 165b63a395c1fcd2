import type { JobPaths } from './jobPaths.ts';
import type { ShopModel } from './shopModel.ts';

/** The largest preemptive one-machine bound (Jackson's rule, Carlier 1982) of all places, over the operations that have no other place. */
export function machineBound(model: ShopModel, { head, tail }: JobPaths): number {
  const byPlace: number[][] = Array.from({ length: model.places }, () => []);
  for (let o = 0; o < model.count; o += 1) {
    const a = model.altFirst[o]!;
    if (a + 1 === model.altFirst[o + 1]) byPlace[model.altPlace[a]!]!.push(a);
  }
  return byPlace.reduce((most, alternatives) => Math.max(most, preemptiveBound(alternatives.map((a) => ({ head: head[a]!, ticks: model.altTicks[a]!, tail: tail[a]! })))), 0);
}

interface OnePlace { readonly head: number; readonly ticks: number; readonly tail: number }

/** Whenever the place is free or somebody arrives, the one with the longest tail goes on. */
function preemptiveBound(operations: readonly OnePlace[]): number {
  const arrivals = [...operations].sort((a, b) => a.head - b.head);
  const open: { left: number; tail: number }[] = [];
  let [now, bound, i] = [0, 0, 0];
  while (i < arrivals.length || open.length > 0) {
    if (open.length === 0) now = Math.max(now, arrivals[i]!.head);
    for (; i < arrivals.length && arrivals[i]!.head <= now; i += 1) open.push({ left: arrivals[i]!.ticks, tail: arrivals[i]!.tail });
    const best = open.reduce((longest, one) => (one.tail > longest.tail ? one : longest));
    const until = i < arrivals.length ? Math.min(now + best.left, arrivals[i]!.head) : now + best.left;
    best.left -= until - now;
    now = until;
    if (best.left > 0) continue;
    bound = Math.max(bound, now + best.tail);
    open.splice(open.indexOf(best), 1);
  }
  return bound;
}
