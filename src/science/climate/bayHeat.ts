/**
 * Heat of a bay in one hour, without memory of the hour before.
 *
 *     heat = U(wind, screen) x cover/floor x (set-point - outdoors) - useful sun - useful lamps
 *
 * With the U lines of Mihara & Hayashi 1979 and a useful share of 0.25 of outdoor global radiation this misses the monthly
 * heat of a published dynamic model (Katzin et al. 2020, 2021; twelve site-months) by 3.0 to 3.3 kWh/m2 rms. Left out: heat
 * kept in floor, water and structure; sky temperature; what a closed canopy draws from the air at night.
 */
import { AIR_J_M3K, roofVentM3M2S } from './airExchange.ts';
import type { BayDesign } from './types.ts';

/** One hour outdoors as the bay sees it. */
export interface OutdoorAir {
  readonly airC: number;
  readonly vapourPa: number;
  readonly globalWM2: number;
  readonly windMS: number;
  readonly co2Ppm: number;
}

/** What the bay does in an hour. Day: the sun is up or lamps are on. */
export interface BayHour {
  readonly day: boolean;
  readonly screenClosed: boolean;
  /** Electric power of the lamps, W/m2. */
  readonly lampWM2: number;
}

/** Whether the energy screen is closed: colder outside than its rule for day (sun up) or night. */
export const isScreenClosed = (bay: BayDesign, outdoor: Pick<OutdoorAir, 'airC' | 'globalWM2'>): boolean =>
  bay.screen !== undefined && outdoor.airC < (outdoor.globalWM2 > 0 ? bay.screen.closesBelowDayC : bay.screen.closesBelowNightC);

/** Heat loss per m2 cover and K. */
export function coverLossWM2K(bay: BayDesign, screenClosed: boolean, windMS: number): number {
  const line = screenClosed && bay.screen !== undefined ? bay.screen.uWM2K : bay.uWM2K;
  return line.calm + line.perMS * windMS;
}

/** Heat that sun and lamps leave in the air, W per m2 floor. */
export const freeHeatWM2 = (bay: BayDesign, outdoor: OutdoorAir, hour: BayHour): number =>
  bay.usefulSunShare * outdoor.globalWM2 + bay.usefulLampShare * hour.lampWM2;

const heatSetPointC = (bay: BayDesign, hour: BayHour): number => (hour.day ? bay.heatDayC : bay.heatNightC);

/** Heat needed to hold the set-point, W per m2 floor; negative when there is too much. `extraFlow` is air let in for humidity. */
export function heatBalanceWM2(bay: BayDesign, outdoor: OutdoorAir, hour: BayHour, extraFlowM3M2S = 0): number {
  const lossWM2K = bay.coverToFloor * coverLossWM2K(bay, hour.screenClosed, outdoor.windMS) + AIR_J_M3K * extraFlowM3M2S;
  return lossWM2K * (heatSetPointC(bay, hour) - outdoor.airC) - freeHeatWM2(bay, outdoor, hour);
}

/** Width of the band over which vents go from shut to open, K: common practice, no source. */
const VENT_BAND_K = 4;

/** Share that vents are open by temperature. */
export const ventShare = (bay: BayDesign, setPointC: number, insideC: number): number =>
  Math.max(0, Math.min(1, (insideC - setPointC - bay.ventAboveHeatK) / VENT_BAND_K));

/** Air temperature, heat delivered and vent flow of an hour. */
export interface AirState { readonly airC: number; readonly heatWM2: number; readonly ventM3M2S: number }

/**
 * Air temperature without heating: where losses through cover and vents equal the free heat. Never under the set-point.
 * No cooling: on hot days the bay is warmer than outdoors.
 */
function floatFreely(bay: BayDesign, outdoor: OutdoorAir, hour: BayHour, extraFlow: number): AirState {
  const setPointC = heatSetPointC(bay, hour);
  const cover = bay.coverToFloor * coverLossWM2K(bay, hour.screenClosed, outdoor.windMS);
  const gain = freeHeatWM2(bay, outdoor, hour);
  const flowAt = (airC: number): number => extraFlow + roofVentM3M2S(bay, ventShare(bay, setPointC, airC), airC, outdoor.airC, outdoor.windMS);
  let [low, high] = [Math.max(setPointC, outdoor.airC), Math.max(setPointC, outdoor.airC) + gain / cover];
  while (high - low > 1e-6) {
    const middle = (low + high) / 2;
    if ((cover + AIR_J_M3K * flowAt(middle)) * (middle - outdoor.airC) < gain) low = middle;
    else high = middle;
  }
  return { airC: low, heatWM2: 0, ventM3M2S: flowAt(low) };
}

/** Air of the bay in an hour: heated to its set-point, or floating above it. */
export function solveAir(bay: BayDesign, outdoor: OutdoorAir, hour: BayHour, extraFlowM3M2S = 0): AirState {
  const heatWM2 = heatBalanceWM2(bay, outdoor, hour, extraFlowM3M2S);
  if (heatWM2 >= 0) return { airC: heatSetPointC(bay, hour), heatWM2, ventM3M2S: extraFlowM3M2S };
  return floatFreely(bay, outdoor, hour, extraFlowM3M2S);
}
