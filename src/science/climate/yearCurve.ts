/** A smooth course over the year through daily values: mean and a few harmonics of the year, by least squares. */

export interface YearCurve {
  readonly mean: number;
  /** Cosine and sine coefficient of each harmonic, the year's first. */
  readonly harmonics: readonly (readonly [cosine: number, sine: number])[];
}

const YEAR_DAYS = 365;
const angle = (dayOfYear: number, harmonic: number): number => 2 * Math.PI * harmonic * dayOfYear / YEAR_DAYS;

/**
 * Fits values of days 1 to 365. On whole evenly spaced years least squares is the Fourier sum, so no system is solved.
 * @param values one for each day of a year of 365 days
 */
export function fitYearCurve(values: readonly number[], harmonics: number): YearCurve {
  const sum = (weight: (day: number) => number): number => values.reduce((total, value, index) => total + value * weight(index + 1), 0);
  return {
    mean: sum(() => 1) / values.length,
    harmonics: Array.from({ length: harmonics }, (_, index) => [
      2 / values.length * sum((day) => Math.cos(angle(day, index + 1))), 2 / values.length * sum((day) => Math.sin(angle(day, index + 1))),
    ] as const),
  };
}

/** Value of the curve on a day of the year, 1 to 366. */
export const yearCurveAt = (curve: YearCurve, dayOfYear: number): number =>
  curve.harmonics.reduce((total, [cosine, sine], index) => total + cosine * Math.cos(angle(dayOfYear, index + 1)) + sine * Math.sin(angle(dayOfYear, index + 1)), curve.mean);
