/** Learning from one number at a time: the ensemble square-root filter. */
import type { LotEnsemble } from './lotEnsemble.ts';
import { refreshMultipliers } from './lotEnsemble.ts';

/** No mass is corrected from below this, g/m2 (the filter works on logarithms). */
const LEAST_MASS = 1e-9;

/** Before this many standard deviations an observation is believed as it is; beyond, its error is widened so that it pulls no harder. */
const SURPRISE_LIMIT = 3;

/**
 * Moves every member by what one observation says.
 * `predicted` is what each member would have shown, `observed` what was seen, `sd` the error of the look; all logarithms.
 * Deterministic update of J.S. Whitaker & T.M. Hamill 2002, Mon. Weather Rev. 130:1913-1924, eq. 8, 11 and 13 (one scalar observation):
 * means move by the gain, departures from the mean by the gain times 1/(1 + sqrt(R/(S + R))).
 * A surprise of more than 3 standard deviations is given a wider error (own choice): a mislabelled sample must not break a lot.
 */
export function assimilateScalar(ensemble: LotEnsemble, predicted: Float64Array, observed: number, sd: number): void {
  const { members } = ensemble;
  const mean = meanOf(predicted);
  const spread = covariance(predicted, mean, predicted, mean);
  const error = Math.max(sd * sd, (observed - mean) ** 2 / SURPRISE_LIMIT ** 2 - spread);
  const total = spread + error;
  const shrink = 1 / (1 + Math.sqrt(error / total));
  const correct = (column: Float64Array) => {
    const gain = covariance(column, meanOf(column), predicted, mean) / total;
    const shift = gain * (observed - mean);
    for (let m = 0; m < members; m += 1) column[m] = column[m]! + shift - shrink * gain * (predicted[m]! - mean);
  };
  ensemble.states.forEach((column, s) => {
    if (ensemble.model.stateVariables[s]!.corrected) correctLogarithm(column, correct);
  });
  const { lotAssimilation, lotExpansion, disturbance, lotFreshness, freshnessDrift, lotStart, biases } = ensemble;
  [lotAssimilation, lotExpansion, disturbance, lotFreshness, freshnessDrift, lotStart, ...Object.values(biases)].forEach(correct);
  refreshMultipliers(ensemble);
}

function correctLogarithm(column: Float64Array, correct: (column: Float64Array) => void): void {
  for (let m = 0; m < column.length; m += 1) column[m] = Math.log(Math.max(LEAST_MASS, column[m]!));
  correct(column);
  for (let m = 0; m < column.length; m += 1) column[m] = Math.exp(column[m]!);
}

export function meanOf(values: Float64Array): number {
  let sum = 0;
  for (let m = 0; m < values.length; m += 1) sum += values[m]!;
  return sum / values.length;
}

/** Sample covariance (n - 1). */
export function covariance(a: Float64Array, meanA: number, b: Float64Array, meanB: number): number {
  let sum = 0;
  for (let m = 0; m < a.length; m += 1) sum += (a[m]! - meanA) * (b[m]! - meanB);
  return sum / (a.length - 1);
}
