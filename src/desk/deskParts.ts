import type { LiveFeed } from './http/liveFeed.ts';
import type { Imaging } from './imaging/keepImaging.ts';
import type { ScoreDesk } from './imaging/keepScores.ts';
import type { OpenGreenhouse } from './openGreenhouse.ts';
import type { SowingDesk } from './sowing/keepSowing.ts';
import type { Morning } from './planning/keepMorning.ts';

/** What every route of the desk works with. */
export interface DeskParts {
  readonly greenhouse: OpenGreenhouse;
  readonly morning: Morning;
  readonly sowing: SowingDesk;
  readonly imaging: Imaging;
  readonly scores: ScoreDesk;
  readonly live: LiveFeed;
  /** The desk's clock: UTC instant, ISO 8601 with Z. */
  readonly nowAt: () => string;
}
