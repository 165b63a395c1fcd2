/**
 * Transpiration of a tomato-like canopy with Stanghellini's resistances.
 * Source: Vanthoor 2011, eq. 8.47 to 8.52 and table 8.1 (after Stanghellini 1987), as in Katzin et al. 2020.
 */
import { leafDeficitPa } from './moistAir.ts';
import { LATENT_HEAT_J_KG } from './transpiration.ts';

export interface FruitingCanopyHour {
  readonly leafC: number;
  readonly airC: number;
  readonly rhPct: number;
  /** Global radiation above the canopy, lamps included, W/m2. */
  readonly radiationWM2: number;
  readonly co2Ppm: number;
  readonly leafAreaIndex: number;
}

const DAY = { co2: 6.1e-7, deficit: 4.3e-6 } as const;
const NIGHT = { co2: 1.1e-11, deficit: 5.2e-6 } as const;
/** Below this radiation the night coefficients hold, W/m2. */
const NIGHT_WM2 = 5;
const LEAST_RESISTANCE_SM = 82;
const BOUNDARY_SM = 275;
/** Air density x heat capacity, J/(m3 K), and psychrometric constant, Pa/K, of the source. */
const RHO_CP = 1.2 * 1000;
const GAMMA_PA_K = 65.8;

/** Stomatal resistance, s/m, from radiation, carbon dioxide and the deficit between leaf and air (Pa, negative taken as 0). */
export function fruitingStomatalResistanceSM(radiationWM2: number, co2Ppm: number, deficitPa: number): number {
  const rate = radiationWM2 > NIGHT_WM2 ? DAY : NIGHT;
  const byLight = (radiationWM2 + 4.3) / (radiationWM2 + 0.54);
  const byCo2 = Math.min(1.5, 1 + rate.co2 * (co2Ppm - 200) ** 2);
  const byDeficit = Math.min(5.8, 1 + rate.deficit * Math.max(0, deficitPa) ** 2);
  return LEAST_RESISTANCE_SM * byLight * byCo2 * byDeficit;
}

/** Water transpired in an hour, litres per m2 floor; never below 0. Valid for 10 to 35 C, 200 to 1500 ppm, leaf area index 0 to 5. */
export function fruitingTranspirationLPerM2H(hour: FruitingCanopyHour): number {
  const deficitPa = leafDeficitPa(hour.leafC, hour.airC, hour.rhPct);
  const resistance = BOUNDARY_SM + fruitingStomatalResistanceSM(hour.radiationWM2, hour.co2Ppm, deficitPa);
  const conductance = 2 * RHO_CP * hour.leafAreaIndex / (LATENT_HEAT_J_KG * GAMMA_PA_K * resistance);
  return 3600 * Math.max(0, conductance * deficitPa);
}
