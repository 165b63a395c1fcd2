import { annealShop } from './annealShop.ts';
import { relinkMachines } from './relinkMachines.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';

/** Two lanes run side by side, each on a core of its own where there are two. */
export const LANES = 2;

/** The tabu list of pairs takes the square of the operations. */
const MOST_TABU = 5000;

/** What one lane does for this shop. */
export function searchLane(model: ShopModel, seed: number, lane: number): ShopSearch {
  const isPlain = model.vehicles === 0 && model.altPlace.length === model.count && model.count <= MOST_TABU;
  return isPlain ? relinkMachines(model, seed * LANES + lane) : annealShop(model, seed * LANES + lane);
}
