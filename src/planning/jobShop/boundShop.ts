import { jobPaths } from './jobPaths.ts';
import { machineBound } from './machineBound.ts';
import { poolBound } from './poolBound.ts';
import { sharedBound } from './sharedBound.ts';
import type { ShopModel } from './shopModel.ts';
import { tripBound } from './tripBound.ts';

/**
 * No plan takes fewer ticks: the best of the longest job, each place with heads and tails (preemptive one-machine bound), the
 * places that a group of operations may choose from, the vehicles with the least empty travel, and where operations have alternatives, all of these at once.
 */
export function boundShop(model: ShopModel): number {
  if (model.count === 0) return 0;
  const paths = jobPaths(model);
  const simple = Math.max(paths.longestJob, machineBound(model, paths), poolBound(model, paths), tripBound(model, paths));
  return model.altPlace.length > model.count ? Math.max(simple, sharedBound(model, paths, simple).ticks) : simple;
}
