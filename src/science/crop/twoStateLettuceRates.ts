/** The equations of the two-state lettuce model, in the symbols of Van Henten 1994 (Agric. Systems 45:55-72). */
import type { ClimateHour, ParameterTable } from './growthModel.ts';
import { valueOf } from './growthParameters.ts';

/** Constants of one crop, by the paper's symbols. */
export interface TwoStateConstants {
  readonly cAlpha: number; readonly cBeta: number; readonly cGrMax: number; readonly cGamma: number; readonly cQ10Gr: number;
  readonly cRespSht: number; readonly cRespRt: number; readonly cQ10Resp: number; readonly cTau: number;
  readonly cK: number; readonly cLar: number; readonly cOmega: number; readonly cGammaCo2: number; readonly cQ10Gamma: number;
  readonly cEpsilon: number; readonly gBnd: number; readonly gStm: number;
  readonly cCar1: number; readonly cCar2: number; readonly cCar3: number;
  readonly structureAtStart: number; readonly parJPerUmol: number;
}

export function readTwoStateConstants(table: ParameterTable, values: Float64Array): TwoStateConstants {
  const at = (symbol: string) => valueOf(table, values, symbol);
  return {
    cAlpha: at('c_alpha'), cBeta: at('c_beta'), cGrMax: at('c_gr_max'), cGamma: at('c_gamma'), cQ10Gr: at('c_q10_gr'),
    cRespSht: at('c_resp_sht'), cRespRt: at('c_resp_rt'), cQ10Resp: at('c_q10_resp'), cTau: at('c_tau'),
    cK: at('c_k'), cLar: at('c_lar'), cOmega: at('c_omega'), cGammaCo2: at('c_Gamma'), cQ10Gamma: at('c_q10_Gamma'),
    cEpsilon: at('c_epsilon'), gBnd: at('g_bnd'), gStm: at('g_stm'),
    cCar1: at('c_car_1'), cCar2: at('c_car_2'), cCar3: at('c_car_3'),
    structureAtStart: at('structure_at_start'), parJPerUmol: at('par_j_per_umol'),
  };
}

/** What one hour's climate makes of the constants: the parts of the rates that do not depend on the plant. */
export interface TwoStateHour {
  /** Gross assimilation of a closed canopy, g CO2/m2/s. */
  readonly photMax: number;
  /** c_gr,max at this temperature, 1/s. */
  readonly grMax: number;
  /** Maintenance per gram of structure at this temperature, g/g/s. */
  readonly resp: number;
}

export function hourOf(c: TwoStateConstants, hour: ClimateHour): TwoStateHour {
  return {
    photMax: closedCanopyPhotosynthesis(c, hour),
    grMax: c.cGrMax * c.cQ10Gr ** ((hour.airC - 20) / 10),
    resp: (c.cRespSht * (1 - c.cTau) + c.cRespRt * c.cTau) * c.cQ10Resp ** ((hour.airC - 25) / 10),
  };
}

/**
 * f_phot,max, g CO2/m2/s: the response of a closed canopy to light and carbon dioxide.
 * The parabola of the carboxylation conductance is stated for 5 to 40 C; where it is not positive there is no assimilation,
 * nor at or below the compensation point.
 */
export function closedCanopyPhotosynthesis(c: TwoStateConstants, { airC, co2Ppm, ppfdUmolM2S }: ClimateHour): number {
  const gamma = c.cGammaCo2 * c.cQ10Gamma ** ((airC - 20) / 10);
  const gCar = c.cCar1 * airC ** 2 + c.cCar2 * airC + c.cCar3;
  if (ppfdUmolM2S <= 0 || co2Ppm <= gamma || gCar <= 0) return 0;
  const epsilon = c.cEpsilon * (co2Ppm - gamma) / (co2Ppm + 2 * gamma);
  const g = 1 / (1 / c.gBnd + 1 / c.gStm + 1 / gCar);
  const byLight = epsilon * c.parJPerUmol * ppfdUmolM2S;
  const byCo2 = g * c.cOmega * (co2Ppm - gamma);
  return byLight * byCo2 / (byLight + byCo2);
}

/** d(X_n)/dt and d(X_s)/dt in g/m2/s, as published (with g CO2 of a closed canopy from `hour`). */
export function twoStateRates(c: TwoStateConstants, hour: TwoStateHour, xN: number, xS: number): { dXn: number; dXs: number } {
  const rGr = hour.grMax * xN / (c.cGamma * xS + xN);
  const phot = (1 - Math.exp(-c.cK * c.cLar * (1 - c.cTau) * xS)) * hour.photMax;
  return {
    dXn: c.cAlpha * phot - rGr * xS - hour.resp * xS - (1 - c.cBeta) / c.cBeta * rGr * xS,
    dXs: rGr * xS,
  };
}
