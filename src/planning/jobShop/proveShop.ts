import { shopClauses, type ShopClauses } from './shopClauses.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';
import type { ShopSearch } from './shopSearch.ts';
import { timeOrder } from './timeOrder.ts';

/** A step of another search takes about as long as so many visits for each operation. */
const VISITS_A_STEP = 1.25;

/**
 * Looks for shorter and shorter plans by learning from conflicts, until it has shown that there is none. One step is so much
 * work that it takes as long as a step of another search. `horizon`: some plan takes no more ticks.
 */
export function proveShop(model: ShopModel, horizon: number): ShopSearch {
  let [known, left, isFinished, isLost] = [horizon + 1, 0, false, false];
  let boundTicks = 0;
  let best: { ticks: number; order: ShopOrder } | undefined;
  let clauses: ShopClauses | undefined;

  function found(): void {
    const { search, makespan, readOrder } = clauses!;
    const claimed = search.lowOf(makespan);
    const order = readOrder();
    const { makespan: ticks } = timeOrder(model, order, model.altTicks, model.travel);
    if (best === undefined || ticks < best.ticks) best = { ticks, order };
    search.rememberChoices();
    // The clauses know a vehicle's shortest way only. Where the real one is longer the claim cannot be kept, nor can anything be excluded by it.
    if (ticks > claimed) isLost = true;
    else { known = Math.min(known, ticks); search.lowerTop(makespan, known - 1); }
  }

  return {
    run(steps, isStopped) {
      if (isFinished || isLost) return;
      clauses ??= shopClauses(model, known);
      left += steps * VISITS_A_STEP * model.count;
      while (left > 0 && !isFinished && !isLost && !isStopped()) {
        const before = clauses.search.work();
        const result = clauses.search.run(left, isStopped);
        left -= clauses.search.work() - before;
        if (result === 'found') { found(); continue; }
        if (result === 'none') { isFinished = true; boundTicks = known; return; }
        boundTicks = Math.max(boundTicks, clauses.search.lowOf(clauses.makespan));
        return;
      }
    },
    best: () => best,
    boundTicks: () => boundTicks,
    hearOf(ticks) {
      if (ticks >= known || isFinished) return;
      known = ticks;
      clauses?.search.lowerTop(clauses.makespan, known - 1);
    },
    isFinished: () => isFinished,
  };
}
