import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { DEFAULT_GROWTH_PRIOR } from '../../science/crop/growthPrior.ts';
import type { LotForecastInput } from '../../science/crop/lotForecast.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';

/** The least that a forecast takes. */
const FEWEST_MEMBERS = 20;
const LEAST_LOG_SD = 0.01;

/** The growth model of a crop by itself, without any spread: every member is the middle one. */
export function middleOf(card: CropCard): Pick<LotForecastInput, 'crop' | 'prior' | 'seed' | 'members'> {
  const still = { mean: 0, sd: 1e-6 };
  const prior = { ...DEFAULT_GROWTH_PRIOR, assimilation: still, expansion: still, freshness: still, driftLogSdPerWeek: 0, disturbanceLogSd: 0, freshnessDriftLogSd: 0, splitLogSd: 0 };
  return { crop: { ...growthOfCard(card), seedlingLogSd: LEAST_LOG_SD }, prior, seed: 1, members: FEWEST_MEMBERS };
}
