import { annealBuffered } from './annealBuffered.ts';
import { annealShop } from './annealShop.ts';
import { inTurns } from './inTurns.ts';
import { proveAndSeek } from './proveAndSeek.ts';
import { proveShop } from './proveShop.ts';
import { relinkMachines } from './relinkMachines.ts';
import { relinkShop } from './relinkShop.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopSearch } from './shopSearch.ts';

/** Two lanes run side by side, each on a core of its own where there are two. */
export const LANES = 2;

/** The tabu list of pairs takes the square of the operations, that of lines their product with the places and vehicles. */
const MOST_TABU = 5000;
const MOST_TABU_LINES = 2e7;

/** Above this many operations, or pairs of alternatives that may meet, a proof has no prospect, and its clauses alone would take long. */
const MOST_PROVEN = 120;
const MOST_PAIRS = 20_000;

/** Steps times operations that go to the proof alone; about three seconds. */
const PROOF_FIRST = 40_000_000;

/** Up to this many operations, with vehicles, annealing finds what tabu search misses; where there are alternatives, also the other way round. */
const MOST_ANNEALED = 60;

/** What one lane does for this shop: the first looks for good plans, the second for a proof where there is a prospect. */
export function searchLane(model: ShopModel, seed: number, lane: number): ShopSearch {
  if (model.buffers !== undefined) return annealBuffered(model, seed * LANES + lane);
  const seeker = seekerOf(model, seed * LANES + lane, lane);
  return lane === 1 && hasProspect(model) ? proveAndSeek(proveShop(model, longestPlan(model)), seeker, PROOF_FIRST / model.count) : seeker;
}

function seekerOf(model: ShopModel, seed: number, lane: number): ShopSearch {
  const { count, vehicles, places, altPlace } = model;
  if (vehicles === 0 && count <= MOST_TABU) return relinkMachines(model, seed);
  if (2 * count * (places + vehicles) > MOST_TABU_LINES) return annealShop(model, seed);
  if (vehicles === 0 || count > MOST_ANNEALED) return relinkShop(model, seed);
  if (altPlace.length === count) return annealShop(model, seed);
  return lane === 1 ? relinkShop(model, seed) : inTurns(annealShop(model, seed), relinkShop(model, seed));
}

function hasProspect({ count, vehicles, altPlace }: ShopModel): boolean {
  const pairs = vehicles > 0 ? altPlace.length ** 2 : count * altPlace.length;
  return count <= MOST_PROVEN && pairs <= MOST_PAIRS;
}

/** Everything one after another. */
function longestPlan(model: ShopModel): number {
  const longestMove = model.travel.reduce((most, ticks) => Math.max(most, ticks), 0);
  return model.altTicks.reduce((sum, ticks) => sum + ticks, 0) + 2 * longestMove * model.count;
}
