import { forecastLot } from '../../science/crop/forecastLot.ts';
import { growthPriorOf } from '../../science/crop/growthPriorOf.ts';
import type { GrowthPrior } from '../../science/crop/growthPrior.ts';
import { learnFromLots, type LotLesson } from '../../science/crop/learnFromLots.ts';
import type { LotForecastInput } from '../../science/crop/lotForecast.ts';
import { daysBetween } from '../day/shiftDay.ts';

/** A lot to be forecast, and what it is of. */
export interface LotToLearnFrom {
  readonly lot: string;
  /** Id of the crop card: lots of one card share what they teach. */
  readonly card: string;
  readonly input: LotForecastInput;
}

/** What a lot is believed to be before it is looked at, and the lots that taught so. */
export interface TaughtPrior { readonly prior: GrowthPrior; readonly from: readonly string[] }

/** Members of the run from which a lesson is taken: a mean and a spread need no more. */
const LESSON_MEMBERS = 60;

/**
 * For each lot what the other lots of its card, weighed so far, have taught; absent where no other was weighed. A lot's own samples
 * never reach its prior, and each lesson is learnt from the untaught prior, so that nothing is counted twice.
 */
export function priorsOfLots(lots: readonly LotToLearnFrom[]): Map<string, TaughtPrior> {
  const lessons = lots.flatMap((one): { readonly of: LotToLearnFrom; readonly lesson: LotLesson }[] => {
    const { input } = one;
    const shared = lots.some((other) => other.card === one.card && other.lot !== one.lot);
    if (!shared || !input.samples.some(({ date }) => date <= input.at && date >= input.planting)) return [];
    const { reportFrom: _, ...rest } = input;
    const run = forecastLot({ ...rest, horizonDays: 0, members: LESSON_MEMBERS });
    return run.ok ? [{ of: one, lesson: run.value.basis.learned }] : [];
  });
  return new Map(lots.flatMap((one): [string, TaughtPrior][] => {
    const others = lessons.filter(({ of }) => of.card === one.card && of.lot !== one.lot);
    if (others.length === 0) return [];
    const aged = others.map(({ of, lesson }) => ({ lesson, ageDays: Math.abs(daysBetween(of.input.planting, one.input.planting)) }));
    return [[one.lot, { prior: learnFromLots(growthPriorOf(one.input.crop), aged), from: others.map(({ of }) => of.lot) }]];
  }));
}
