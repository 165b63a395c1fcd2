import { annealShop } from './annealShop.ts';
import { proveAndSeek } from './proveAndSeek.ts';
import { proveShop } from './proveShop.ts';
import { relinkMachines } from './relinkMachines.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';

/** Two lanes run side by side, each on a core of its own where there are two. */
export const LANES = 2;

/** The tabu list of pairs takes the square of the operations. */
const MOST_TABU = 5000;

/** Above this many operations a proof has no prospect. */
const MOST_PROVEN = 120;

/** What one lane does for this shop: the first looks for good plans, the second for a proof where there is a prospect. */
export function searchLane(model: ShopModel, seed: number, lane: number): ShopSearch {
  const isPlain = model.vehicles === 0 && model.altPlace.length === model.count && model.count <= MOST_TABU;
  const seeker = isPlain ? relinkMachines(model, seed * LANES + lane) : annealShop(model, seed * LANES + lane);
  return lane === 1 && model.count <= MOST_PROVEN ? proveAndSeek(proveShop(model, longestPlan(model)), seeker) : seeker;
}

/** Everything one after another. */
function longestPlan(model: ShopModel): number {
  const longestMove = model.travel.reduce((most, ticks) => Math.max(most, ticks), 0);
  return model.altTicks.reduce((sum, ticks) => sum + ticks, 0) + 2 * longestMove * model.count;
}
