/** What earlier lots of a cultivar teach about the next one. */
import type { GrowthPrior, LogBelief } from './growthPrior.ts';

/** What one lot taught: belief about its multipliers and its seedlings at the last day that it was looked at. */
export interface LotLesson {
  readonly assimilation: LogBelief;
  readonly expansion: LogBelief;
  readonly freshness: LogBelief;
  readonly start: LogBelief;
}

/** A lesson, and how long before the new lot its lot was planted. */
export interface AgedLesson { readonly lesson: LotLesson; readonly ageDays: number }

/** Share of the variance between lots that those of one cultivar in one season have in common (own choice, no source). */
const SHARED = 0.5;
/** What lots share changes with the season: half of it is another after so many days (own choice, no source). */
const SEASON_HALF_DAYS = 120;

/**
 * The belief for a new lot of the same cultivar, from lots that were all forecast with the belief `prior`.
 * The shared half is learnt as in a normal hierarchical model with known variances (Gelman et al., Bayesian Data Analysis, 5.4):
 * each lot is evidence with its own error, the half that is its own, and what the season has changed since. Few lots shrink to the prior.
 */
export function learnFromLots(prior: GrowthPrior & { readonly start: LogBelief }, lots: readonly AgedLesson[]): GrowthPrior & { readonly start: LogBelief } {
  const pool = (of: keyof LotLesson) => poolBeliefs(prior[of], lots.map(({ lesson, ageDays }) => ({ belief: lesson[of], ageDays })));
  return { ...prior, assimilation: pool('assimilation'), expansion: pool('expansion'), freshness: pool('freshness'), start: pool('start') };
}

function poolBeliefs(prior: LogBelief, lots: readonly { readonly belief: LogBelief; readonly ageDays: number }[]): LogBelief {
  const shared = SHARED * prior.sd ** 2;
  const between = (1 - SHARED) * prior.sd ** 2;
  let precision = 1 / shared;
  let weighted = prior.mean * precision;
  for (const { belief, ageDays } of lots) {
    const own = evidenceOf(belief, prior);
    if (own === undefined) continue;
    const weight = 1 / (own.sd ** 2 + between + shared * (1 - 0.5 ** (Math.max(0, ageDays) / SEASON_HALF_DAYS)));
    precision += weight;
    weighted += weight * own.mean;
  }
  return { mean: weighted / precision, sd: Math.sqrt(1 / precision + between) };
}

/** What the lot's own looks said: its belief with the prior taken out again. Nothing where they said nothing. */
function evidenceOf(lot: LogBelief, prior: LogBelief): LogBelief | undefined {
  const precision = 1 / lot.sd ** 2 - 1 / prior.sd ** 2;
  if (precision <= 0.02 / prior.sd ** 2) return undefined;
  return { mean: (lot.mean / lot.sd ** 2 - prior.mean / prior.sd ** 2) / precision, sd: Math.sqrt(1 / precision) };
}
