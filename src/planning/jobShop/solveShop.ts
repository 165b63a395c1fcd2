import type { JobShopProblem } from './jobShopProblem.ts';
import { runLane } from './runLane.ts';
import { LANES, searchLane } from './searchLane.ts';
import { modelShop } from './shopModel.ts';
import type { ShopPlan } from './shopPlan.ts';
import { shopRounds } from './shopRounds.ts';
import { writeShopPlan } from './writeShopPlan.ts';

/** Plans a job shop in this thread: the same plan that the threads of the command give for the same seed and iterations. */
export function solveShop(problem: JobShopProblem, { seed, iterations }: { readonly seed: number; readonly iterations: number }): ShopPlan {
  const model = modelShop(problem);
  const rounds = shopRounds(model, iterations);
  const lanes = Array.from({ length: LANES }, (_, lane) => searchLane(model, seed, lane));
  for (let steps = rounds.nextSteps(); steps > 0; steps = rounds.nextSteps()) {
    const bestTicks = rounds.bestTicks();
    rounds.gather(lanes.map((lane) => runLane(lane, steps, bestTicks, () => false)));
  }
  return writeShopPlan(problem, model, rounds.best() ?? nothing(), rounds.boundTicks());
}

const nothing = () => ({ tokens: new Int32Array(0), alternative: new Int32Array(0), vehicle: new Int32Array(0) });
