/** Fresh mass of a shoot from its dry mass: ln fresh = intercept + slope ln dry, with the spread around it. */
export interface DryMatterCurve {
  /** ln(g fresh) of a shoot of 1 g dry. */
  readonly intercept: number;
  readonly slope: number;
  /** Spread of ln fresh between lots, at the same dry mass. */
  readonly lotLogSd: number;
  /** Spread of ln fresh between plants of a lot, at the same dry mass. */
  readonly plantLogSd: number;
  readonly source: string;
}
