/**
 * Vapour of a bay in one hour: transpiration = what leaks and is vented + what condenses on cover or screen + what the air
 * of the bay keeps from the hour before.
 * Each term is a straight line in the vapour pressure inside, so the balance is solved without iteration.
 */
import { leakageM3M2S, roofVentM3M2S, vapourFlowKgM2S } from './airExchange.ts';
import type { AirState, BayHour, OutdoorAir } from './bayHeat.ts';
import { coverLossWM2K } from './bayHeat.ts';
import { saturationPressurePa } from './moistAir.ts';
import type { CanopyNature } from './transpiration.ts';
import { LETTUCE_UNDER_GLASS, LETTUCE_UNDER_LAMPS, transpirationLPerM2H } from './transpiration.ts';
import type { BayDesign } from './types.ts';

/** Inner surface resistance, m2 K/W: common practice for building surfaces, no source. */
const INNER_RESISTANCE = 0.13;

/**
 * Temperature of the coldest surface that the bay's air meets. Open: single cover between the inner resistance and
 * Vanthoor's outside coefficient 2.8 + 1.2 wind (table 8.2). Closed: the screen, behind the inner resistance.
 */
export function coldSurfaceC(bay: BayDesign, hour: BayHour, insideC: number, outdoor: OutdoorAir): number {
  const outer = 1 / (2.8 + 1.2 * outdoor.windMS);
  const share = hour.screenClosed ? INNER_RESISTANCE * coverLossWM2K(bay, true, outdoor.windMS) : INNER_RESISTANCE / (INNER_RESISTANCE + outer);
  return insideC - Math.min(1, share) * (insideC - outdoor.airC);
}

/** kg of vapour per m2 floor, s and Pa that condense on the cold surface. Vanthoor 2011, eq. 8.43, with 1.86 dT^0.33 inside. */
const condensationPerPa = (bay: BayDesign, insideC: number, surfaceC: number): number =>
  6.4e-9 * bay.coverToFloor * 1.86 * Math.max(0, insideC - surfaceC) ** 0.33;

/** Terms of the vapour balance: what the canopy gives as a line in the inside pressure, and what takes it away. */
interface VapourTerms {
  /** kg per m2 and s that come in with outdoor air per m3 of flow, and from the bay's own air of the hour before. */
  readonly outdoorKgM3: number; readonly keptKg: number; readonly keptFlow: number;
  readonly source0: number; readonly sourceSlope: number;
  readonly condensation: number; readonly surfacePa: number;
  readonly insideC: number;
}

/** Light that the canopy sees in an hour: sun and lamps, umol/(m2 s). */
export interface CanopyLight { readonly sunPpfd: number; readonly lampPpfd: number }

/** Air of the hour before, which the bay still holds. */
export interface KeptAir { readonly airC: number; readonly vapourPa: number; readonly co2Ppm: number }

/** Flow that stands for the bay's own air over an hour, m3 per m2 floor and s: its whole volume once. */
export const keptFlowM3M2S = (bay: BayDesign): number => bay.airHeightM / 3600;

/** kg of vapour that a m3 of air carries. */
const vapourKgM3 = (vapourPa: number, airC: number): number => vapourFlowKgM2S(1, vapourPa, airC, 0, 0);

function vapourTerms(bay: BayDesign, hour: BayHour, insideC: number, outdoor: OutdoorAir, light: CanopyLight, kept: KeptAir | undefined): VapourTerms {
  const saturated = saturationPressurePa(insideC);
  const nature: CanopyNature = light.sunPpfd > light.lampPpfd ? LETTUCE_UNDER_GLASS : LETTUCE_UNDER_LAMPS;
  const at = (rhPct: number): number => transpirationLPerM2H({
    airC: insideC, rhPct, ppfdUmolM2S: light.sunPpfd + light.lampPpfd, leafAreaIndex: bay.leafAreaIndex, groundCover: bay.groundCover,
  }, nature) / 3600;
  const [dry, wet] = [at(40), at(100)];
  const sourceSlope = (wet - dry) / (0.6 * saturated);
  const surfaceC = coldSurfaceC(bay, hour, insideC, outdoor);
  return {
    source0: wet - sourceSlope * saturated, sourceSlope, condensation: condensationPerPa(bay, insideC, surfaceC),
    surfacePa: saturationPressurePa(surfaceC), insideC, outdoorKgM3: vapourKgM3(outdoor.vapourPa, outdoor.airC),
    keptFlow: kept === undefined ? 0 : keptFlowM3M2S(bay), keptKg: kept === undefined ? 0 : keptFlowM3M2S(bay) * vapourKgM3(kept.vapourPa, kept.airC),
  };
}

/** Vapour pressure inside at which the balance closes for a given air flow; at most saturation. */
function balancePa(terms: VapourTerms, flowM3M2S: number): number {
  const perPa = (flowM3M2S + terms.keptFlow) * vapourKgM3(1, terms.insideC);
  const given = terms.source0 + flowM3M2S * terms.outdoorKgM3 + terms.keptKg;
  const withoutDew = given / (perPa - terms.sourceSlope);
  if (withoutDew <= terms.surfacePa) return Math.max(0, withoutDew);
  const withDew = (given + terms.condensation * terms.surfacePa) / (perPa + terms.condensation - terms.sourceSlope);
  return Math.min(withDew, saturationPressurePa(terms.insideC));
}

/** Air flow that holds the humidity limit, or undefined where outdoor air is too humid to do it. */
function flowForLimit(terms: VapourTerms, limitPa: number): number | undefined {
  const limitKgM3 = vapourKgM3(limitPa, terms.insideC);
  const surplus = terms.source0 + terms.sourceSlope * limitPa + terms.keptKg - terms.keptFlow * limitKgM3
    - terms.condensation * Math.max(0, limitPa - terms.surfacePa);
  return limitKgM3 <= terms.outdoorKgM3 ? undefined : surplus / (limitKgM3 - terms.outdoorKgM3);
}

/** Vapour pressure inside and the air that has to be let in beyond what temperature asks for, m3 per m2 and s. */
export interface HumidityState { readonly vapourPa: number; readonly extraFlowM3M2S: number }

/** Humidity of a bay in an hour, with vents opened further where the limit asks for it and outdoor air is dry enough. */
export function solveHumidity(bay: BayDesign, hour: BayHour, air: AirState, outdoor: OutdoorAir, light: CanopyLight, kept?: KeptAir): HumidityState {
  const terms = vapourTerms(bay, hour, air.airC, outdoor, light, kept);
  const flow = leakageM3M2S(bay, outdoor.windMS) + air.ventM3M2S;
  const vapourPa = balancePa(terms, flow);
  const limitPa = bay.rhMaxPct / 100 * saturationPressurePa(air.airC);
  const needed = vapourPa > limitPa ? flowForLimit(terms, limitPa) : undefined;
  if (needed === undefined || needed <= flow) return { vapourPa, extraFlowM3M2S: 0 };
  const most = roofVentM3M2S(bay, 1, air.airC, outdoor.airC, outdoor.windMS);
  const extraFlowM3M2S = Math.max(0, Math.min(needed - flow, most - air.ventM3M2S));
  return { vapourPa: balancePa(terms, flow + extraFlowM3M2S), extraFlowM3M2S };
}
