import type { Outcome } from '../../refusal.ts';
import { accepted, refused } from '../../refusal.ts';
import type { MassModel } from './massModel.ts';
import { featuresOf, pairName, rowOf } from './massModel.ts';
import type { MassPlant } from './massSample.ts';

/** The mass of a plant that was not weighed. */
export interface MassEstimate {
  readonly medianG: number;
  /** Between these it lies with 90 % probability. */
  readonly lowG: number;
  readonly highG: number;
  /** Standard deviation of ln mass. */
  readonly lnSd: number;
}

/** Standard normal quantile of 95 % (tables). */
const Z95 = 1.6449;
/** Days beyond the ages of the samples at which the answer is still given, with a warning. */
const AGE_SLACK_DAYS = 14;

/**
 * Mass of a plant with its interval. A cultivar or occasion that no sample had widens the interval by what these are known to differ.
 * Refused: an age further than 14 days from those of the samples, traits that are not positive numbers.
 */
export function predictMass(model: MassModel, plant: MassPlant): Outcome<MassEstimate> {
  const bad = model.columns.traits.find((trait) => !(plant.traits[trait]! > 0 && plant.traits[trait]! < Number.POSITIVE_INFINITY));
  if (bad !== undefined) return refused([{ code: 'value-out-of-range', path: `traits.${bad}`, value: plant.traits[bad], limit: 'a positive number', message: `Mass cannot be told without ${bad}.`, severity: 'error' }]);
  const [least, most] = model.ageDays;
  const beyond = Math.max(least - plant.ageDays, plant.ageDays - most);
  const told = { code: 'value-out-of-range' as const, path: 'ageDays', value: plant.ageDays, limit: [least, most], unit: 'd', message: 'The plant is younger or older than any that was weighed; weigh some of its age.' };
  if (!(beyond <= AGE_SLACK_DAYS)) return refused([{ ...told, severity: 'error' }]);
  return accepted(estimate(model, plant), beyond > 0 ? [{ ...told, severity: 'warning' }] : []);
}

function estimate(model: MassModel, plant: MassPlant): MassEstimate {
  const row = rowOf(model.columns, plant);
  const n = row.length;
  let ln = 0;
  let variance = model.plantVariance + unmetVariance(model, plant);
  for (let i = 0; i < n; i += 1) {
    if (row[i] === 0) continue;
    ln += row[i]! * model.mean[i]!;
    for (let j = 0; j < n; j += 1) variance += row[i]! * model.covariance[i * n + j]! * row[j]!;
  }
  const lnSd = Math.sqrt(variance);
  return { medianG: Math.exp(ln), lowG: Math.exp(ln - Z95 * lnSd), highG: Math.exp(ln + Z95 * lnSd), lnSd };
}

/** Variance of the parts that no sample told about. */
function unmetVariance(model: MassModel, plant: MassPlant): number {
  const { columns } = model;
  const [cultivars, occasions, pairs] = [columns.cultivars, columns.occasions, columns.pairs].map(({ length }) => expectedOver(length)) as [number, number, number];
  let variance = 0;
  if (!columns.cultivars.includes(plant.cultivar)) featuresOf(columns, plant).forEach((feature, i) => { variance += cultivars * feature * feature * model.cultivarVariances[i]!; });
  if (!columns.occasions.includes(plant.occasion ?? '')) variance += occasions * model.occasionVariance;
  if (!columns.pairs.includes(pairName(plant))) variance += pairs * model.pairVariance;
  return variance;
}

/**
 * Expected variance over the most likely one that fitLevels gives, when it was learnt from so many members and one of the prior's: the mean
 * of an inverse gamma distribution over sum of squares / (members + 1) (Gelman et al. 2013, "Bayesian Data Analysis", 3.2 and app. A). For
 * fewer than two members it does not exist; the factor for two is taken.
 */
const expectedOver = (members: number): number => (Math.max(2, members) + 1) / (Math.max(2, members) - 1);
