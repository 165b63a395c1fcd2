import type { ShopSearch } from './shopSearch.ts';

/** Two searches for good plans that share their steps half and half. */
export function inTurns(one: ShopSearch, other: ShopSearch): ShopSearch {
  return {
    run(steps, isStopped) {
      one.run(Math.ceil(steps / 2), isStopped);
      other.run(Math.ceil(steps / 2), isStopped);
    },
    best() {
      const [first, second] = [one.best(), other.best()];
      return second !== undefined && (first === undefined || second.ticks < first.ticks) ? second : first;
    },
    boundTicks: () => Math.max(one.boundTicks(), other.boundTicks()),
    hearOf(ticks) { one.hearOf(ticks); other.hearOf(ticks); },
    isFinished: () => one.isFinished() || other.isFinished(),
  };
}
