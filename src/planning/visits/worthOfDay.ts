import type { LaidDay } from '../edit/laidDay.ts';
import { DEFAULT_OPTIONS, type PlanSettings } from '../planSettings.ts';
import { worthOfMore } from '../schedule/worthOfMore.ts';
import { worthWords } from './worthWords.ts';

/** Changes tried for each of the wider days. */
const WORTH_ITERATIONS = 80;

/** What one more vehicle, place or half hour would be worth to a day that is laid out, a sentence each, one after the other; undefined where another plan was made in between. */
export function* worthOfDay({ problem, schedule, startMs, timeZone }: LaidDay, options: Partial<PlanSettings> = {}): Generator<string | undefined> {
  const { seed = DEFAULT_OPTIONS.seed, iterations = DEFAULT_OPTIONS.iterations } = options;
  for (const worth of worthOfMore(problem, schedule, { seed, iterations: Math.min(iterations, WORTH_ITERATIONS) })) {
    yield worth && worthWords(worth, problem.vehicles.length, { startMs, timeZone });
  }
}
