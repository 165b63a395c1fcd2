import type { MassPlant } from './massSample.ts';

/** What learnMass found; plain values, so that it can be kept. Predict with predictMass. */
export interface MassModel {
  readonly version: 1;
  readonly columns: MassColumns;
  /** Of the coefficients of all columns: expected value, and covariance row by row. */
  readonly mean: readonly number[];
  readonly covariance: readonly number[];
  /** Variance of a cultivar's own part of each feature. */
  readonly cultivarVariances: readonly number[];
  /** Variance between occasions, and between cultivars on one occasion. */
  readonly occasionVariance: number;
  readonly pairVariance: number;
  /** Variance of ln mass between plants that are alike in everything above. */
  readonly plantVariance: number;
  readonly samples: number;
  readonly ageDays: readonly [least: number, most: number];
}

/** The columns of the regression: features common to all, each cultivar's own, one for each occasion and each cultivar on an occasion. */
export interface MassColumns {
  readonly traits: readonly string[];
  /** Mean of ln of each trait in the samples, so that the intercept stands in the middle. */
  readonly centres: readonly number[];
  readonly middleAgeDays: number;
  readonly cultivars: readonly string[];
  readonly occasions: readonly string[];
  readonly pairs: readonly string[];
}

/** Age enters in units of this, so that its coefficients have the size of the others. */
const AGE_UNIT_DAYS = 21;

export const featureCount = ({ traits }: MassColumns): number => traits.length + 3;
export const columnCount = (columns: MassColumns): number => featureCount(columns) * (1 + columns.cultivars.length) + columns.occasions.length + columns.pairs.length;
export const pairName = ({ cultivar, occasion }: MassPlant): string => JSON.stringify([cultivar, occasion]);

/** Intercept, age, age squared, ln of each trait. */
export function featuresOf(columns: MassColumns, { ageDays, traits }: MassPlant): number[] {
  const age = (ageDays - columns.middleAgeDays) / AGE_UNIT_DAYS;
  return [1, age, age * age, ...columns.traits.map((trait, i) => Math.log(traits[trait]!) - columns.centres[i]!)];
}

/** The row of a plant over all columns; what was not met when learning stays zero and is counted into the variance by predictMass. */
export function rowOf(columns: MassColumns, plant: MassPlant): Float64Array {
  const features = featuresOf(columns, plant);
  const row = new Float64Array(columnCount(columns));
  row.set(features);
  const cultivar = columns.cultivars.indexOf(plant.cultivar);
  if (cultivar >= 0) row.set(features, features.length * (1 + cultivar));
  const occasionsAt = features.length * (1 + columns.cultivars.length);
  const occasion = columns.occasions.indexOf(plant.occasion ?? '');
  if (occasion >= 0) row[occasionsAt + occasion] = 1;
  const pair = columns.pairs.indexOf(pairName(plant));
  if (pair >= 0) row[occasionsAt + columns.occasions.length + pair] = 1;
  return row;
}
