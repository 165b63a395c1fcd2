import { annealShop } from './annealShop.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';

/** Two lanes run side by side, each on a core of its own where there are two. */
export const LANES = 2;

/** What one lane does for this shop. */
export function searchLane(model: ShopModel, seed: number, lane: number): ShopSearch {
  return annealShop(model, seed * LANES + lane);
}
