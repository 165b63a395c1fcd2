import { jobPaths } from './jobPaths.ts';
import { machineBound } from './machineBound.ts';
import { poolBound } from './poolBound.ts';
import type { ShopModel } from './shopModel.ts';
import { tripBound } from './tripBound.ts';

/**
 * No plan takes fewer ticks: the best of the longest job, each place with heads and tails (preemptive one-machine bound), the
 * places that a group of operations may choose from, and the vehicles with the least empty travel.
 */
export function boundShop(model: ShopModel): number {
  const paths = jobPaths(model);
  return Math.max(paths.longestJob, machineBound(model, paths), poolBound(model, paths), tripBound(model, paths));
}
