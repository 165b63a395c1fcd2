/**
 * Carbon dioxide of a bay in one hour: dose + what air brings = what the canopy takes + what the air of the bay keeps.
 * A rough canopy, good for the level of the air only, never for growth: light-limited rate 0.05 mol per mol of photons
 * (Thornley & Johnson 1990, from memory, unverified), diffusion-limited rate with a conductance of 0.0017 m/s and a
 * compensation point of 40 ppm (Van Henten 1994), respiration 1.5 umol/(m2 s) at night (from memory, unverified).
 */

const QUANTUM_YIELD = 0.05;
const CONDUCTANCE_M_S = 0.0017;
const COMPENSATION_PPM = 40;
const RESPIRATION_UMOL = 1.5;
/** Mol of air per m3 at 20 C and 101.3 kPa; grams of carbon dioxide per mol. */
const AIR_MOL_M3 = 41.6;
const CO2_G_MOL = 44.01;

/** Net uptake of a canopy, umol per m2 floor and s; negative in the dark. */
export function canopyUptakeUmolM2S(ppfdUmolM2S: number, co2Ppm: number, groundCover: number): number {
  const byLight = QUANTUM_YIELD * ppfdUmolM2S;
  const byDiffusion = CONDUCTANCE_M_S * AIR_MOL_M3 * Math.max(0, co2Ppm - COMPENSATION_PPM);
  const gross = byLight + byDiffusion === 0 ? 0 : byLight * byDiffusion / (byLight + byDiffusion);
  return groundCover * (gross - RESPIRATION_UMOL);
}

export interface CarbonDioxideHour {
  readonly outdoorPpm: number;
  /** Leakage and vents together, m3 per m2 floor and s. */
  readonly flowM3M2S: number;
  readonly ppfdUmolM2S: number;
  readonly groundCover: number;
  /** Absent: no dosing in this hour. */
  readonly setPpm?: number;
  readonly mostDoseGM2H: number;
  /** Level at the end of the hour before and the air that remembers it, m3 per m2 floor and s. Absent: the balance of a long hour. */
  readonly kept?: { readonly co2Ppm: number; readonly flowM3M2S: number };
}

export interface CarbonDioxideState { readonly co2Ppm: number; readonly doseGM2H: number }

const GRAMS_PER_UMOL_S = 3600 * CO2_G_MOL / 1e6;

/** Dose in g/(m2 h) that leads to a level. */
function doseFor(hour: CarbonDioxideHour, co2Ppm: number): number {
  const carried = hour.flowM3M2S * (co2Ppm - hour.outdoorPpm) + (hour.kept === undefined ? 0 : hour.kept.flowM3M2S * (co2Ppm - hour.kept.co2Ppm));
  return GRAMS_PER_UMOL_S * (canopyUptakeUmolM2S(hour.ppfdUmolM2S, co2Ppm, hour.groundCover) + AIR_MOL_M3 * carried);
}

/**
 * Level at which a dose is used up. With x the level above the compensation point and F all flows, the balance
 * cover L D x/(L + D x) + F x + rest = 0 is a quadratic in x; below the compensation point there is no uptake and it is a line.
 */
function levelFor(hour: CarbonDioxideHour, doseGM2H: number): number {
  const kept = hour.kept ?? { co2Ppm: 0, flowM3M2S: 0 };
  const F = AIR_MOL_M3 * (hour.flowM3M2S + kept.flowM3M2S);
  const brought = AIR_MOL_M3 * (hour.flowM3M2S * hour.outdoorPpm + kept.flowM3M2S * kept.co2Ppm) + hour.groundCover * RESPIRATION_UMOL + doseGM2H / GRAMS_PER_UMOL_S;
  const rest = F * COMPENSATION_PPM - brought;
  const L = QUANTUM_YIELD * hour.ppfdUmolM2S;
  const D = CONDUCTANCE_M_S * AIR_MOL_M3;
  if (L === 0 || rest >= 0) return brought / F;
  const b = L * (hour.groundCover * D + F) + rest * D;
  return COMPENSATION_PPM + (Math.sqrt(b * b - 4 * F * D * rest * L) - b) / (2 * F * D);
}

/** Level and dose of an hour: the set-point where the dose suffices, else what the largest dose gives; without dosing what air brings. */
export function solveCarbonDioxide(hour: CarbonDioxideHour): CarbonDioxideState {
  const undosed = levelFor(hour, 0);
  if (hour.setPpm === undefined || undosed >= hour.setPpm) return { co2Ppm: undosed, doseGM2H: 0 };
  const wanted = doseFor(hour, hour.setPpm);
  if (wanted <= hour.mostDoseGM2H) return { co2Ppm: hour.setPpm, doseGM2H: wanted };
  return { co2Ppm: levelFor(hour, hour.mostDoseGM2H), doseGM2H: hour.mostDoseGM2H };
}
