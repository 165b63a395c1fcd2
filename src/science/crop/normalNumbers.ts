/** Normal numbers for ensembles: evenly spread, so that a hundred members have the mean and spread they should have. */
import type { RandomStream } from '../seededRandom.ts';

/**
 * Standard normal quantile of p in (0, 1).
 * P.J. Acklam 2003, rational approximation, relative error below 1.2e-9 (from memory; checked against tabulated quantiles).
 */
export function normalQuantile(p: number): number {
  const q = p - 0.5;
  if (Math.abs(q) <= 0.47575) {
    const r = q * q;
    return q * (((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r - 30.66479806614716) * r + 2.506628277459239)
      / (((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r - 13.28068155288572) * r + 1);
  }
  const r = Math.sqrt(-2 * Math.log(Math.min(p, 1 - p)));
  const z = (((((-0.007784894002430293 * r - 0.3223964580411365) * r - 2.400758277161838) * r - 2.549732539343734) * r + 4.374664141464968) * r + 2.938163982698783)
    / ((((0.007784695709041462 * r + 0.3224671290700398) * r + 2.445134137142996) * r + 3.754408661907416) * r + 1);
  return p < 0.5 ? z : -z;
}

/** Standard normal distribution function; W.J. Cody's idea in the form of Abramowitz & Stegun 1964, 7.1.26: error below 1.5e-7. */
export function normalShareBelow(z: number): number {
  const x = Math.abs(z) * Math.SQRT1_2;
  const t = 1 / (1 + 0.3275911 * x);
  const tail = 0.5 * t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) * Math.exp(-x * x);
  return z < 0 ? tail : 1 - tail;
}

/** Quantiles at the middles of `count` equal shares, scaled to unit variance. */
export function evenNormals(count: number): Float64Array {
  const values = Float64Array.from({ length: count }, (_, i) => normalQuantile((i + 0.5) / count));
  const scale = Math.sqrt(count / values.reduce((sum, value) => sum + value * value, 0));
  return values.map((value) => value * scale);
}

/** The same numbers in a random order (Fisher & Yates). */
export function shuffleInPlace(values: Float64Array, random: RandomStream): void {
  for (let i = values.length - 1; i > 0; i -= 1) {
    const j = random.below(i + 1);
    const kept = values[i]!;
    values[i] = values[j]!;
    values[j] = kept;
  }
}
