/** What samples and other observations say, as numbers a filter can take: a logarithm with the spread of its error. */
import type { GrowthPrior } from './growthPrior.ts';
import { dayNumberOf } from './calendar.ts';
import type { CropGrowth, MeanObservation, PlantSample } from './lotForecast.ts';

export interface Look {
  readonly day: number;
  /** dryG, freshG, leafAreaM2: per plant. freshPerDry: the two weighed on the same plants. */
  readonly quantity: 'dryG' | 'freshG' | 'freshPerDry' | 'leafAreaM2';
  /** ln of the mean; for freshPerDry of the mean fresh mass. */
  readonly logMean: number;
  readonly logSd: number;
  /** For freshPerDry: ln of the mean dry mass of the same plants. */
  readonly logDryMean?: number;
  /** What shows the same excess at each look, and the spread of the logarithm of that excess. */
  readonly instrument?: string;
  readonly biasLogSd?: number;
}

type WeighedBoth = { readonly freshG: number; readonly dryG: number };

/**
 * Spread of ln mass between the plants of a lot: what was believed, and what the samples so far show within themselves
 * (scaled inverse chi-square update; Gelman et al., Bayesian Data Analysis, 2.6).
 */
export function plantSpread(prior: GrowthPrior, samples: readonly PlantSample[]): number {
  let squares = prior.plantWeight * prior.plantLogSd ** 2;
  let weight = prior.plantWeight;
  for (const sample of samples) {
    const logs = massesOf(sample, 'dryG').length >= 2 ? massesOf(sample, 'dryG').map(Math.log) : massesOf(sample, 'freshG').map(Math.log);
    if (logs.length < 2) continue;
    const mean = average(logs);
    squares += logs.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    weight += logs.length - 1;
  }
  return Math.sqrt(squares / weight);
}

/** The looks of one sample: dry mass, fresh relative to dry of plants with both, and fresh mass of plants that were not dried. */
export function looksOfSample(sample: PlantSample, crop: CropGrowth, prior: GrowthPrior, plantLogSd: number): Look[] {
  const day = dayNumberOf(sample.date)!;
  const dry = massesOf(sample, 'dryG');
  const both = sample.plants.filter((plant): plant is WeighedBoth => plant.freshG !== undefined && plant.dryG !== undefined);
  const freshOnly = sample.plants.flatMap((plant) => (plant.dryG === undefined && plant.freshG !== undefined ? [plant.freshG] : []));
  const looks: Look[] = [];
  if (dry.length > 0) looks.push({ day, quantity: 'dryG', logMean: Math.log(average(dry)), logSd: meanError(prior, plantLogSd, dry.length) });
  if (both.length > 0) {
    const [logMean, logDryMean] = [Math.log(average(both.map((plant) => plant.freshG))), Math.log(average(both.map((plant) => plant.dryG)))];
    looks.push({ day, quantity: 'freshPerDry', logMean, logDryMean, logSd: Math.hypot(crop.dryMatter.plantLogSd / Math.sqrt(both.length), SCALES_LOG_SD) });
  }
  if (freshOnly.length > 0) {
    const logSd = meanError(prior, Math.hypot(plantLogSd, crop.dryMatter.plantLogSd), freshOnly.length);
    looks.push({ day, quantity: 'freshG', logMean: Math.log(average(freshOnly)), logSd });
  }
  return looks;
}

/**
 * Leaf area per dry mass of a lot is no better known to the models than this, whatever it was measured with: the cultivars and weeks
 * of 2021 lie 0.026 to 0.047 m2/g (own reading), the published lettuce model comes to 0.033 to 0.067 over a crop.
 */
const LEAF_AREA_LOG_SD = 0.25;

export function lookOfObservation(observation: MeanObservation): Look {
  const biasLogSd = Math.hypot(logSdOf(observation.sharedRelativeSd ?? 0), observation.quantity === 'leafAreaM2' ? LEAF_AREA_LOG_SD : 0);
  return {
    day: dayNumberOf(observation.date)!, quantity: observation.quantity, logMean: Math.log(observation.mean), logSd: logSdOf(observation.relativeSd),
    ...(biasLogSd > 0 ? { instrument: `${observation.instrument ?? observation.from} ${observation.quantity}`, biasLogSd } : {}),
  };
}

/** Spread of the logarithm of a lognormal with this relative standard deviation. */
const logSdOf = (relativeSd: number) => Math.sqrt(Math.log1p(relativeSd ** 2));

/** The largest spread that the looks of each instrument name. */
export function biasSpreads(looks: readonly Look[]): Record<string, number> {
  const spreads: Record<string, number> = {};
  for (const { instrument, biasLogSd } of looks) if (instrument !== undefined) spreads[instrument] = Math.max(spreads[instrument] ?? 0, biasLogSd ?? 0);
  return spreads;
}

/** Error of fresh against dry mass of the same plants that more plants do not cure: scales, drying, water lost on the way (common practice, no source). Where in the bay they stood does not matter here. */
const SCALES_LOG_SD = 0.02;

/** Error of the mean of n plants: their spread over root n, and what more plants do not cure. */
const meanError = (prior: GrowthPrior, spread: number, n: number) => Math.hypot(spread / Math.sqrt(n), prior.sampleLogSd);

const massesOf = (sample: PlantSample, quantity: 'dryG' | 'freshG') => sample.plants.flatMap((plant) => {
  const mass = plant[quantity];
  return mass === undefined ? [] : [mass];
});

const average = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
