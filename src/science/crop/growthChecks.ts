/** Each day on which a lot was weighed, set beside its forecast and beside the model uncorrected. */
import { covariance, meanOf } from './assimilate.ts';
import type { GrowthCheck } from './growthAlarms.ts';
import type { Look } from './sampleLooks.ts';

/** What the members would have shown at a look, before it acted: mean and spread of the logarithm. */
export interface LookForecast {
  readonly look: Look;
  readonly mean: number;
  readonly variance: number;
}

/** Runs the lot with these looks and tells what was forecast for each. */
export type RunWithLooks = (looks: readonly Look[]) => readonly LookForecast[];

export function forecastOfLook(look: Look, predicted: Float64Array): LookForecast {
  const mean = meanOf(predicted);
  return { look, mean, variance: covariance(predicted, mean, predicted, mean) };
}

/** The error of a look that is only compared: so wide that it teaches nothing. */
const COMPARE_ONLY = 1e6;

/**
 * Checks from the second weighing on, of dry mass where there is any. `learning` are the forecasts of the run that learns from all
 * looks; `run` makes the uncorrected run, which learns from the first weighing only.
 */
export function checkGrowth(learning: readonly LookForecast[], run: RunWithLooks): GrowthCheck[] {
  const quantity = learning.some(({ look }) => look.quantity === 'dryG') ? 'dryG' : 'freshG';
  const [first, ...later] = learning.filter(({ look }) => look.quantity === quantity);
  if (first === undefined || later.length === 0) return [];
  const uncorrected = run([first.look, ...later.map(({ look }) => ({ ...look, logSd: COMPARE_ONLY }))]);
  return later.map(({ look, mean, variance }, i) => ({
    day: look.day, quantity, measured: look.logMean, forecast: mean, forecastSd: Math.sqrt(variance + look.logSd ** 2),
    expected: uncorrected[i + 1]!.mean,
  }));
}
