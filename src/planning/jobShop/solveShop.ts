import type { JobShopProblem } from './jobShopProblem.ts';
import { runLane } from './runLane.ts';
import { LANES, searchLane } from './searchLane.ts';
import { modelShop, type ShopModel } from './shopModel.ts';
import type { ShopPlan } from './shopPlan.ts';
import { shopRounds, type ShopRounds } from './shopRounds.ts';
import { writeShopPlan } from './writeShopPlan.ts';

/** Plans a job shop in this thread: the same plan that the threads of the command give for the same seed and iterations. */
export function solveShop(problem: JobShopProblem, { seed, iterations }: { readonly seed: number; readonly iterations: number }): ShopPlan {
  const model = modelShop(problem);
  const { rounds } = runRounds(model, seed, iterations, Infinity, () => false);
  return writeShopPlan(problem, model, rounds.best(), rounds.boundTicks());
}

/** Runs so many rounds here, one lane after the other, or fewer where the search is over before; then `isOver`. */
export function runRounds(model: ShopModel, seed: number, iterations: number, most: number, isStopped: () => boolean): { readonly rounds: ShopRounds; readonly isOver: boolean } {
  const rounds = shopRounds(model, iterations);
  const lanes = Array.from({ length: LANES }, (_, lane) => searchLane(model, seed, lane));
  let steps = rounds.nextSteps();
  for (let round = 0; steps > 0 && round < most && !isStopped(); round += 1) {
    const bestTicks = rounds.bestTicks();
    rounds.gather(lanes.map((lane) => runLane(lane, steps, bestTicks, isStopped)));
    steps = rounds.nextSteps();
  }
  return { rounds, isOver: steps === 0 };
}
