/** What fixes the hydrogen ions. */
export type ProtonCondition =
  | { readonly by: 'pH'; readonly pH: number }
  /** Electroneutrality of the stated totals. */
  | { readonly by: 'charge' }
  /** A known alkalinity: for analyses whose charges do not quite balance. */
  | { readonly by: 'alkalinity'; readonly eqPerKg: number };

/** What fixes the inorganic carbon. */
export type CarbonCondition =
  | { readonly by: 'none' }
  | { readonly by: 'total'; readonly molPerKg: number }
  /** As much as gives this alkalinity at the stated pH. */
  | { readonly by: 'alkalinity'; readonly eqPerKg: number }
  /** In equilibrium with air of this partial pressure. */
  | { readonly by: 'air'; readonly log10PCO2Atm: number };

/** The solution of a similar water, from which the search starts. The result is the same within 1e-9, only sooner. */
export interface NearbySolution {
  /** ln activities of SO4-2, H2PO4-, CO2, H+. */
  readonly lnActivities: readonly number[];
  readonly ionicStrengthMolPerKg: number;
  readonly solutesMolPerKg: number;
}

/** One water, stated completely and without contradiction. */
export interface EquilibriumProblem {
  /** 0 to 50 C. */
  readonly temperatureC: number;
  /** mol/kg of water, in the order of TOTALS. */
  readonly totalsMolPerKg: ArrayLike<number>;
  readonly protons: ProtonCondition;
  readonly carbon: CarbonCondition;
  /** Index into TOTALS of the amount that is changed until charges balance; only together with a stated pH. */
  readonly chargeAdjust?: number;
  readonly near?: NearbySolution;
}
