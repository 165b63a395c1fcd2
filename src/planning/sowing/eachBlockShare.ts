import type { SowingProblem } from './sowingProblem.ts';

/** Share of each block's days that lie in [fromDay, toDay). */
export function eachBlockShare(problem: Pick<SowingProblem, 'blocks'>, fromDay: number, toDay: number, visit: (block: number, share: number) => void): void {
  problem.blocks.forEach((block, i) => {
    const days = Math.min(toDay, block.toDay + 1) - Math.max(fromDay, block.fromDay);
    if (days > 0) visit(i, days / (block.toDay + 1 - block.fromDay));
  });
}
