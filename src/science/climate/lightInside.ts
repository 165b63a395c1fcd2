/**
 * Light above the crop: sun through cover and structure, lamps, daily light integral.
 * PPFD in umol photons (400-700 nm) per m2 and second, daily light integral in mol per m2 and day.
 */
import { localHourOfDay } from './hourGrid.ts';
import type { HourGrid, LampDesign } from './types.ts';

/** How global radiation turns into photons: share of its energy in 400-700 nm, and photons per joule of that. */
export interface LightPair {
  readonly parShare: number;
  readonly umolPerJ: number;
  readonly source: string;
}

/**
 * The pair used here: 0.45 of the energy, 4.57 umol/J, so 2.06 umol per J of global radiation.
 * One constant share can err by up to 15 % (Akitsu et al. 2022): the share rises under cloud.
 */
export const SUN_PAIR: LightPair = { parShare: 0.45, umolPerJ: 4.57, source: 'share 0.45 usual; 4.57 umol/J sun and sky, McCree 1972, Thimijan & Heins 1983 (from memory, unverified)' };

/** The pair of a published dynamic greenhouse model, 12 % more photons from the same radiation: never mix the two. */
export const VANTHOOR_PAIR: LightPair = { parShare: 0.5, umolPerJ: 4.6, source: 'Vanthoor 2011, table 8.1' };

const HOUR_S = 3600;
const UMOL_PER_MOL = 1e6;

/** Photon flux density of global radiation, umol/(m2 s); global 0 to 1500 W/m2. */
export const ppfdOfGlobal = (globalWM2: number, pair: LightPair = SUN_PAIR): number => globalWM2 * pair.parShare * pair.umolPerJ;

/** Mol per m2 from a photon flux density that lasts some hours. */
export const lightIntegralMol = (ppfdUmolM2S: number, hours: number): number => ppfdUmolM2S * hours * HOUR_S / UMOL_PER_MOL;

/** Daily light integral outdoors from the day's radiation sum in MJ/m2. */
export const dliOfRadiationSum = (radiationMJ: number, pair: LightPair = SUN_PAIR): number => radiationMJ * pair.parShare * pair.umolPerJ;

/** Electricity for a light integral from lamps, kWh/m2. Efficacy in umol per J at the crop. */
export const lampElectricityKWh = (lightMol: number, efficacyUmolJ: number): number => lightMol / efficacyUmolJ / 3.6;

/** Electric power of fully lit lamps, W/m2. */
export const lampPowerWM2 = (lamps: LampDesign): number => lamps.ppfdUmolM2S / lamps.efficacyUmolJ;

/** Light that passes two layers, with the light they throw to and fro between them. Katzin et al. 2020, eq. A4. */
export const throughTwoLayers = (first: number, second: number, reflectsDown: number, reflectsUp: number): number =>
  first * second / (1 - reflectsDown * reflectsUp);

/** Share of light that a canopy intercepts, 1 - exp(-k x leaf area index). Monsi & Saeki 1953. */
export const interceptedShare = (leafAreaIndex: number, extinction: number): number => 1 - Math.exp(-extinction * leafAreaIndex);

/** Whether a local clock hour lies in a span that may run over midnight; equal ends mean the whole day. */
export function isWithin(hourOfDay: number, fromH: number, untilH: number): boolean {
  if (fromH === untilH) return true;
  return fromH < untilH ? hourOfDay >= fromH && hourOfDay < untilH : hourOfDay >= fromH || hourOfDay < untilH;
}

/**
 * Share of an hour (0 to 1) that lamps are on by their rule: within their hours, with the sun under its threshold, and
 * until the day's light integral has reached its target (the last hour in part).
 * @param soFarMol light above the crop since local midnight, mol/m2, before this hour
 * @param sunMol what the sun adds in this hour
 */
export function lampShareByRule(lamps: LampDesign, hourOfDay: number, globalWM2: number, soFarMol: number, sunMol: number): number {
  if (!isWithin(hourOfDay, lamps.onFromH, lamps.onUntilH) || globalWM2 > lamps.offAboveGlobalWM2) return 0;
  if (lamps.targetDliMolM2 === undefined) return 1;
  const wantedMol = lamps.targetDliMolM2 - soFarMol - sunMol;
  return Math.max(0, Math.min(1, wantedMol / lightIntegralMol(lamps.ppfdUmolM2S, 1)));
}

/** Light integral of each local day that the grid touches, mol/m2, in order; the first and last may be parts of days. */
export function dailyLightIntegrals(grid: HourGrid, ppfdUmolM2S: Float64Array): number[] {
  const sums: number[] = [];
  ppfdUmolM2S.forEach((ppfd, hour) => {
    if (hour === 0 || localHourOfDay(grid, hour) < 1) sums.push(0);
    sums[sums.length - 1] = (sums.at(-1) as number) + lightIntegralMol(ppfd, 1);
  });
  return sums;
}
