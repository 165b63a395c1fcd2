import type { LaneNews } from './shopRounds.ts';
import type { ShopSearch } from './shopSearch.ts';

/** One round of one lane: hears of the best plan, runs its steps, says what it has. */
export function runLane(search: ShopSearch, steps: number, bestTicks: number, isStopped: () => boolean): LaneNews {
  search.hearOf(bestTicks);
  search.run(steps, isStopped);
  const best = search.best();
  return { ticks: best?.ticks ?? 2 ** 30, boundTicks: search.boundTicks(), isFinished: search.isFinished(), ...(best !== undefined && best.ticks < bestTicks ? { order: best.order } : {}) };
}
