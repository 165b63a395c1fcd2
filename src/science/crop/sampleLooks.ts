/** What samples and other observations say, as numbers a filter can take: a logarithm with the spread of its error. */
import type { GrowthPrior } from './growthPrior.ts';
import { dayNumberOf } from './calendar.ts';
import type { CropGrowth, MeanObservation, PlantSample } from './lotForecast.ts';

export interface Look {
  readonly day: number;
  /** dryG, freshG, leafAreaM2: per plant. freshPerDry: the two weighed on the same plants. */
  readonly quantity: 'dryG' | 'freshG' | 'freshPerDry' | 'leafAreaM2';
  /** ln of the mean. For freshPerDry: ln of the mean fresh mass, less ln of the mean dry mass times the slope of the curve. */
  readonly logMean: number;
  readonly logSd: number;
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
    const logMean = Math.log(average(both.map((plant) => plant.freshG))) - crop.dryMatter.slope * Math.log(average(both.map((plant) => plant.dryG)));
    looks.push({ day, quantity: 'freshPerDry', logMean, logSd: meanError(prior, crop.dryMatter.plantLogSd, both.length) });
  }
  if (freshOnly.length > 0) {
    const logSd = meanError(prior, Math.hypot(plantLogSd, crop.dryMatter.plantLogSd), freshOnly.length);
    looks.push({ day, quantity: 'freshG', logMean: Math.log(average(freshOnly)), logSd });
  }
  return looks;
}

export function lookOfObservation(observation: MeanObservation): Look {
  return {
    day: dayNumberOf(observation.date)!, quantity: observation.quantity,
    logMean: Math.log(observation.mean), logSd: Math.sqrt(Math.log1p(observation.relativeSd ** 2)),
  };
}

/** Error of the mean of n plants: their spread over root n, and what more plants do not cure. */
const meanError = (prior: GrowthPrior, spread: number, n: number) => Math.hypot(spread / Math.sqrt(n), prior.sampleLogSd);

const massesOf = (sample: PlantSample, quantity: 'dryG' | 'freshG') => sample.plants.flatMap((plant) => {
  const mass = plant[quantity];
  return mass === undefined ? [] : [mass];
});

const average = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
