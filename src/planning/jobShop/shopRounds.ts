import { boundShop } from './boundShop.ts';
import { LANES } from './searchLane.ts';
import type { ShopModel } from './shopModel.ts';
import type { ShopOrder } from './shopOrder.ts';

/** What a lane says after a round. */
export interface LaneNews {
  readonly ticks: number;
  /** Absent where it has found nothing better since it last said so. */
  readonly order?: ShopOrder;
  readonly boundTicks: number;
  readonly isFinished: boolean;
}

/**
 * The rounds of a search: in each round every lane runs the same number of steps on its own, then all hear what was found.
 * So the plan depends on the seed and on the number of rounds, never on which thread was faster.
 */
export interface ShopRounds {
  /** Steps of the next round for each lane; 0 when the search is over. */
  readonly nextSteps: () => number;
  /** The shortest plan so far, which lanes are told before a round. */
  readonly bestTicks: () => number;
  /** Takes what all lanes found, in their order. */
  readonly gather: (news: readonly LaneNews[]) => void;
  readonly best: () => ShopOrder | undefined;
  readonly boundTicks: () => number;
}

const FIRST_STEPS = 400_000;
const MOST_STEPS = 10_000_000;

/** `iterations`: steps of each lane in all, Infinity where a clock ends the search. `knownTicks`: a proven bound, where one is known already. */
export function shopRounds(model: ShopModel, iterations: number, knownTicks = boundShop(model)): ShopRounds {
  let [left, steps, bestTicks, boundTicks] = [iterations, FIRST_STEPS / Math.max(1, model.count), 2 ** 30, knownTicks];
  let best: ShopOrder | undefined;
  let isFinished = model.count === 0;
  return {
    nextSteps() {
      if (isFinished || left <= 0 || (best !== undefined && boundTicks >= bestTicks)) return 0;
      const turn = Math.min(left, Math.ceil(steps));
      left -= turn;
      steps = Math.min(MOST_STEPS / model.count, steps * 1.5);
      return turn;
    },
    bestTicks: () => bestTicks,
    gather(news) {
      for (const lane of news.slice(0, LANES)) {
        boundTicks = Math.max(boundTicks, lane.boundTicks);
        isFinished ||= lane.isFinished;
        if (lane.order === undefined || lane.ticks >= bestTicks) continue;
        bestTicks = lane.ticks;
        best = lane.order;
      }
    },
    best: () => best,
    boundTicks: () => Math.min(boundTicks, bestTicks),
  };
}
