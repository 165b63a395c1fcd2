/**
 * Transpiration as a sum of a radiation and a deficit term, for crops whose two coefficients were fitted on own drain balances.
 * Source: Baille, Baille & Laury 1994, Scientia Horticulturae 59 (nine ornamentals; from memory, unverified).
 */

/** Latent heat of 2.45 MJ/kg in Wh/kg: turns W/m2 into litres per m2 and hour. */
const LATENT_HEAT_WH_KG = 2.45e6 / 3600;

export interface BailleCoefficients {
  /** Share of intercepted radiation that evaporates water, about 0.1 to 0.7. */
  readonly radiationShare: number;
  /** Deficit coefficient, W per m2 leaf area and kPa, about 10 to 40. A value under 1 is kg/(m2 h kPa) by mistake: multiply by 680. */
  readonly deficitWM2KPa: number;
  /** Extinction of radiation in the canopy, 0.5 to 0.9. */
  readonly extinction: number;
}

/** Water transpired in an hour, litres per m2 floor. Global radiation inside, W/m2; deficit of the air, kPa. */
export function bailleTranspirationLPerM2H(globalWM2: number, deficitKPa: number, leafAreaIndex: number, by: BailleCoefficients): number {
  const intercepted = 1 - Math.exp(-by.extinction * leafAreaIndex);
  const heat = by.radiationShare * intercepted * globalWM2 + by.deficitWM2KPa * leafAreaIndex * deficitKPa;
  return heat / LATENT_HEAT_WH_KG;
}
