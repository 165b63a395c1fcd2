import type { GrowthPrior, LogBelief } from './growthPrior.ts';
import { DEFAULT_GROWTH_PRIOR } from './growthPrior.ts';
import type { CropGrowth } from './lotForecast.ts';

/**
 * Where a model's rates are known less well than `DEFAULT_GROWTH_PRIOR` says. Expolinear: relative growth of young plants is its
 * expansion rate itself, and that was 0.18 to 0.22 a day in 2021 and 0.15 in the winters of Van Henten 1994 (his figure 3), where
 * in the two-state model sugar evens such differences out. Reduced tomato: read in transcriptions, crops of months (own choice of drift,
 * so that bands of invented crops hold).
 */
const BY_MODEL: Readonly<Record<string, Partial<GrowthPrior>>> = {
  expolinear: { expansion: { mean: 0, sd: 0.3 } }, 'reduced-tomato': { driftLogSdPerWeek: 0.1 },
};

/** What is believed of a lot of this crop before any lot was looked at: the spreads of fresh mass and of seedlings are the crop's own. */
export function growthPriorOf(crop: CropGrowth): GrowthPrior & { readonly start: LogBelief } {
  return {
    ...DEFAULT_GROWTH_PRIOR, ...BY_MODEL[crop.modelId],
    freshness: { mean: 0, sd: crop.dryMatter.lotLogSd }, freshnessDriftLogSd: crop.dryMatter.driftLogSd, start: { mean: 0, sd: crop.seedlingLogSd },
  };
}
