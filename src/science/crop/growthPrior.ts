/** What is believed of a lot before it has been looked at, and what earlier lots teach about the next. */

export interface GrowthPrior {
  /** Logarithm of the assimilation multiplier of a lot: mean, and spread between lots. 0 is the model as published. */
  readonly assimilation: LogBelief;
  /** Logarithm of the expansion multiplier of a lot. */
  readonly expansion: LogBelief;
  /** Logarithm of fresh mass at a given dry mass, relative to the crop's dry-matter curve. */
  readonly freshness: LogBelief;
  /** Logarithm of the seedlings' dry mass relative to the crop's; where absent, 0 and the crop's own spread. */
  readonly start?: LogBelief;
  /** Slow drift of the lot's assimilation multiplier, because no model is right all along: spread of its logarithm gathered in a week. */
  readonly driftLogSdPerWeek: number;
  /** Passing disturbance of the assimilation multiplier: spread of its logarithm, and how long one lasts. */
  readonly disturbanceLogSd: number;
  readonly disturbanceDays: number;
  /** Passing part of the fresh mass at a given dry mass (water, light of the last days): spread of its logarithm, and how long it lasts. */
  readonly freshnessDriftLogSd: number;
  readonly freshnessDriftDays: number;
  /** Spread of the logarithm of dry mass between the plants of a lot, and the number of plants this belief is worth. */
  readonly plantLogSd: number;
  readonly plantWeight: number;
  /** Error of a sample's mean that more plants do not cure (where in the bay, how cut, how dried): spread of the logarithm. */
  readonly sampleLogSd: number;
  /** Spread of the logarithm of the sugar-to-structure split (or its like) at the start. */
  readonly splitLogSd: number;
  readonly source: string;
}

export interface LogBelief {
  readonly mean: number;
  readonly sd: number;
}

/**
 * The belief before any lot has been grown here.
 * assimilation 0.25: four cultivars of 2021 differ by 0.24 in the slope of their linear phase (own fit).
 * expansion 0.2: the same cultivars differ by 0.09 in early relative growth (own fit); doubled for other houses.
 * disturbance 0.25 over 5 days: weekly growth of Van Henten's two validation crops differs from his own simulation by 0.2 to 0.27
 * (figure 3, read by eye, so that part of it is reading error).
 * drift 0.07 a week: own choice, so that bands of 300 invented lots whose truth is another model hold (bench/cropCalibration.ts).
 * freshness 0.12 and 0.08 over a week: cultivars of 2021 differ by 0.10 around one curve, their weekly means by 0.085 around their own,
 * of which 0.03 is the sampling error of a dozen plants (own fit).
 * plants 0.2: spread within cultivar and week of 2021 (own fit), worth ten plants. Sample error and split: common practice, no source.
 */
export const DEFAULT_GROWTH_PRIOR: GrowthPrior = {
  assimilation: { mean: 0, sd: 0.25 },
  expansion: { mean: 0, sd: 0.2 },
  freshness: { mean: 0, sd: 0.12 },
  driftLogSdPerWeek: 0.07,
  disturbanceLogSd: 0.2,
  disturbanceDays: 5,
  freshnessDriftLogSd: 0.08,
  freshnessDriftDays: 7,
  plantLogSd: 0.2,
  plantWeight: 10,
  sampleLogSd: 0.05,
  splitLogSd: 0.3,
  source: 'Van Henten 1994 figure 3; own fit to the lettuce of 2021 (4TU doi 10.4121/15023088)',
};
