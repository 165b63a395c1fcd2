/**
 * Transpiration of a lettuce-like canopy from its energy balance.
 * Source: Graamans, van den Dobbelsteen, Meinen & Stanghellini 2017, Agricultural Systems 153:138-147: net radiation of
 * the canopy = sensible + latent heat, both per leaf area through a boundary-layer and a stomatal resistance. The paper
 * linearises the saturation curve; here leaf temperature is solved on the full curve, which moves its figure 6 by up to
 * 0.7 W/m2. Made for lamp-lit lettuce with moving air: measured 115, model 108 g/(m2 h) over 24 h; in the dark it is low
 * (40 against 58 g/(m2 h) measured). Long-wave exchange with roof and floor is left out.
 */
import type { CanopyHour } from './types.ts';

/** Air density x heat capacity, J/(m3 K), at 20 C; latent heat of vaporisation, J/kg; gas constant of vapour, J/(kg K). */
const RHO_CP = 1.2 * 1005;
export const LATENT_HEAT_J_KG = 2.45e6;
const R_VAPOUR = 461.5;
const KELVIN = 273.15;

/** What the canopy is, apart from its size. */
export interface CanopyNature {
  /** Share of photosynthetic light thrown back; the paper gives 0.05 to 0.08. */
  readonly parReflectance: number;
  /** Photons per joule of the light above the canopy: 5 in the paper (lamps), 4.57 for sun. */
  readonly umolPerJ: number;
  /** Boundary-layer resistance, s/m: 100 with fans, 200 in still air. */
  readonly boundarySM: number;
  /** Near-infrared from the sun above the canopy, W per umol/(m2 s) of photosynthetic light; 0 for lamps without. */
  readonly nearInfraredPerUmol: number;
}

/** The lamp-lit lettuce of the paper. */
export const LETTUCE_UNDER_LAMPS: CanopyNature = { parReflectance: 0.05, umolPerJ: 5, boundarySM: 100, nearInfraredPerUmol: 0 };

/** Lettuce under glass: sunlight of 4.57 umol/J that brings 0.55 J of near-infrared with each 0.45 J of visible light. */
export const LETTUCE_UNDER_GLASS: CanopyNature = { ...LETTUCE_UNDER_LAMPS, umolPerJ: 4.57, nearInfraredPerUmol: 0.55 / (0.45 * 4.57) };

/** Stomatal resistance per leaf area, s/m: 450 in the dark. Graamans et al. 2017. */
export const stomatalResistanceSM = (ppfdUmolM2S: number): number => 60 * (1500 + ppfdUmolM2S) / (200 + ppfdUmolM2S);

/** Share of near-infrared that the canopy absorbs: reflectance 0.35, extinction 0.27. Vanthoor 2011, table 8.1. */
export const nearInfraredShare = (leafAreaIndex: number): number => 0.65 * (1 - Math.exp(-0.27 * leafAreaIndex));

/** Absorbed radiation of the canopy, W per m2 floor. Graamans et al. 2017, with near-infrared added where stated. */
export function netRadiationWM2(hour: Pick<CanopyHour, 'ppfdUmolM2S' | 'groundCover' | 'leafAreaIndex'>, nature: CanopyNature): number {
  const par = (1 - nature.parReflectance) * hour.ppfdUmolM2S / nature.umolPerJ * hour.groundCover;
  if (nature.nearInfraredPerUmol === 0) return par;
  return par + nature.nearInfraredPerUmol * hour.ppfdUmolM2S * nearInfraredShare(hour.leafAreaIndex);
}

/** Saturation vapour density, kg/m3, over water (Tetens' curve as in FAO-56 eq. 11 and the ideal gas). */
const saturationDensity = (airC: number): number => 610.8 * Math.exp(17.27 * airC / (airC + 237.3)) / (R_VAPOUR * (airC + KELVIN));

/** Its change with temperature as a share of itself, 1/K. */
const saturationGrowth = (airC: number): number => 17.27 * 237.3 / (airC + 237.3) ** 2 - 1 / (airC + KELVIN);

interface Air { readonly airC: number; readonly vapourKgM3: number; readonly boundarySM: number; readonly stomatalSM: number }

/** Leaf temperature at which absorbed heat (W per m2 leaf) leaves as sensible and latent heat. Newton's rule to 1e-7 K. */
function solveLeafC(absorbedWM2: number, air: Air): number {
  const sensible = RHO_CP / air.boundarySM;
  const latent = LATENT_HEAT_J_KG / (air.stomatalSM + air.boundarySM);
  let leafC = air.airC;
  for (let step = 0; step < 20; step += 1) {
    const saturated = saturationDensity(leafC);
    const excess = absorbedWM2 - sensible * (leafC - air.airC) - latent * (saturated - air.vapourKgM3);
    const change = excess / (sensible + latent * saturated * saturationGrowth(leafC));
    leafC += change;
    if (Math.abs(change) < 1e-7) break;
  }
  return leafC;
}

const latentPerLeaf = (leafC: number, air: Air): number =>
  LATENT_HEAT_J_KG * (saturationDensity(leafC) - air.vapourKgM3) / (air.stomatalSM + air.boundarySM);

const airOf = (hour: Pick<CanopyHour, 'airC' | 'rhPct' | 'ppfdUmolM2S'>, nature: CanopyNature): Air => ({
  airC: hour.airC, vapourKgM3: hour.rhPct / 100 * saturationDensity(hour.airC),
  boundarySM: nature.boundarySM, stomatalSM: stomatalResistanceSM(hour.ppfdUmolM2S),
});

/** Where the canopy's heat goes, W per m2 floor; sensible is negative while the canopy is cooler than the air. */
export interface CanopyBalance { readonly netWM2: number; readonly latentWM2: number; readonly sensibleWM2: number; readonly leafC: number }

/**
 * Energy balance of the canopy in one hour. Valid for 5 to 40 C, humidity 20 to 100 %, 0 to 1500 umol/(m2 s), leaf area
 * index 0 to 6; 0 leaf area gives no exchange. Latent is negative where dew forms.
 */
export function canopyBalance(hour: CanopyHour, nature: CanopyNature = LETTUCE_UNDER_LAMPS): CanopyBalance {
  if (hour.leafAreaIndex <= 0) return { netWM2: 0, latentWM2: 0, sensibleWM2: 0, leafC: hour.airC };
  const netWM2 = netRadiationWM2(hour, nature);
  const air = airOf(hour, nature);
  const leafC = solveLeafC(netWM2 / hour.leafAreaIndex, air);
  const latentWM2 = hour.leafAreaIndex * latentPerLeaf(leafC, air);
  return { netWM2, latentWM2, sensibleWM2: netWM2 - latentWM2, leafC };
}

/** Water transpired in an hour, litres per m2 floor (1 kg taken as 1 L). Negative where dew forms. */
export const transpirationLPerM2H = (hour: CanopyHour, nature: CanopyNature = LETTUCE_UNDER_LAMPS): number =>
  canopyBalance(hour, nature).latentWM2 * 3600 / LATENT_HEAT_J_KG;
