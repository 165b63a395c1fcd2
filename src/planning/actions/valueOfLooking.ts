import { normalQuantile } from '../../science/crop/normalNumbers.ts';

/** What a look at a lot tells. */
export interface LookQuality {
  /** Correlation of the lot's mean mass as looked at with its mass when it matters, over its ensemble, -1 to 1. */
  readonly correlation: number;
  /** Spread of ln mass today in the ensemble, and error of the look, as standard deviations. */
  readonly todayLogSd: number;
  readonly errorLogSd: number;
}

export interface LookValue {
  /** Expected gain of deciding after the look less that of deciding now: never below zero. */
  readonly worth: number;
  /** Chance that what is decided after the look is not what would be decided now. */
  readonly chanceItChanges: number;
}

/** Outcomes of the look that are told apart: middles of equal shares of a normal. */
const OUTCOMES = 40;
const BALANCING_ROUNDS = 200;

/**
 * Expected value of sample information (Raiffa & Schlaifer 1961, Applied Statistical Decision Theory, chapter 4), pre-posterior:
 * futures m stand for equal shares of a standard normal score of the lot's mass; outcome j of the look for equal shares of
 * its own. Both are taken as jointly normal with correlation r = correlation x today / hypot(today, error). The table of their
 * joint chances is balanced until every row and column sums to its equal share (Sinkhorn 1964), so that the mean over outcomes
 * of what is believed after the look is exactly what is believed now, and the worth can't be negative.
 * @param money money[c][m]: gain of choice c in future m
 * @param scores standard normal score of the lot's mass in each future
 */
export function valueOfLooking(money: readonly Float64Array[], scores: Float64Array, look: LookQuality): LookValue {
  const futures = scores.length;
  if (money.length === 0 || futures === 0) return { worth: 0, chanceItChanges: 0 };
  const now = bestOf(money.map((of) => of.reduce((sum, gain) => sum + gain, 0) / futures));
  const spread = Math.hypot(look.todayLogSd, look.errorLogSd);
  const r = spread === 0 ? 0 : Math.min(0.999, Math.max(-0.999, (look.correlation * look.todayLogSd) / spread));
  const joint = jointChances(scores, r);
  let mean = 0;
  let changes = 0;
  for (let j = 0; j < OUTCOMES; j++) {
    const expected = money.map((of) => of.reduce((sum, gain, m) => sum + gain * joint[j * futures + m]!, 0) * OUTCOMES);
    const best = bestOf(expected);
    mean += best.value / OUTCOMES;
    // A choice that is no better than today's, but for rounding, changes nothing.
    if (best.value - expected[now.choice]! > 1e-9 * (1 + Math.abs(best.value))) changes += 1 / OUTCOMES;
  }
  return changes === 0 ? { worth: 0, chanceItChanges: 0 } : { worth: Math.max(0, mean - now.value), chanceItChanges: changes };
}

const bestOf = (values: readonly number[]): { choice: number; value: number } =>
  values.reduce((best, value, choice) => (value > best.value ? { choice, value } : best), { choice: 0, value: values[0]! });

/** Chance of outcome j and future m together. */
function jointChances(scores: Float64Array, r: number): Float64Array {
  const futures = scores.length;
  const joint = new Float64Array(OUTCOMES * futures);
  for (let j = 0; j < OUTCOMES; j++) {
    const y = normalQuantile((j + 0.5) / OUTCOMES);
    for (let m = 0; m < futures; m++) joint[j * futures + m] = Math.exp(-((y - r * scores[m]!) ** 2) / (2 * (1 - r * r)));
  }
  for (let round = 0; round < BALANCING_ROUNDS; round++) if (balance(joint, futures) < 1e-12) break;
  return joint;
}

/** Scales rows, then columns, to their equal shares; tells by how much rows were off. */
function balance(joint: Float64Array, futures: number): number {
  let off = 0;
  for (let j = 0; j < OUTCOMES; j++) {
    const row = joint.subarray(j * futures, (j + 1) * futures);
    const sum = row.reduce((all, each) => all + each, 0);
    off = Math.max(off, Math.abs(sum * OUTCOMES - 1));
    for (let m = 0; m < futures; m++) row[m]! /= sum * OUTCOMES;
  }
  for (let m = 0; m < futures; m++) {
    let sum = 0;
    for (let j = 0; j < OUTCOMES; j++) sum += joint[j * futures + m]!;
    for (let j = 0; j < OUTCOMES; j++) joint[j * futures + m]! /= sum * futures;
  }
  return off;
}
