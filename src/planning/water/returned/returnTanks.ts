import type { Feed } from '../feed.ts';
import type { SourceWater, SourceWaters } from '../sourceWaters.ts';
import type { FeedWindow } from './expectedFeeds.ts';
import type { ReturnTank } from './routingQuestion.ts';

/**
 * The return tanks whose contents are known, after today's draws, in the order of their names. One that is held is
 * taken to be free again after the near days (a test takes about two: common practice, no source); one whose treatment does
 * not do serves no feed, but can hold solution.
 */
export function returnTanks({ usable, unusable }: SourceWaters, feeds: readonly Feed[]): ReturnTank[] {
  const open = usable.filter(({ source }) => source.kind === 'return').map((water) => tankOf(water, feeds, ['near', 'far']));
  const closed = unusable.flatMap(({ water, isHeld }) => (water === undefined || water.source.kind !== 'return' ? [] : [tankOf(water, feeds, isHeld === true ? ['far'] : [])]));
  return [...open, ...closed].sort((a, b) => (a.source.id < b.source.id ? -1 : 1));
}

function tankOf({ source, availableL, mmolPerL }: SourceWater, feeds: readonly Feed[], drawnIn: readonly FeedWindow[]): ReturnTank {
  const drawnL = feeds.reduce((sum, { draws }) => sum + (draws.find(({ from }) => from.source.id === source.id)?.litres ?? 0), 0);
  return { source, heldL: Math.max(0, availableL - drawnL), mmolPerL, drawnIn };
}
