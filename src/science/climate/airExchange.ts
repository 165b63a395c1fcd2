/** Air that passes between a bay and outdoors, m3 per m2 floor and second, and the vapour that goes with it. */
import type { BayDesign } from './types.ts';

const KELVIN = 273.15;
/** Volumetric heat capacity of air, J/(m3 K): 1.2 kg/m3 x 1000 J/(kg K). */
export const AIR_J_M3K = 1200;

/** Through chinks. Vanthoor 2011, eq. 8.71: never less than a wind of 0.25 m/s gives. */
export const leakageM3M2S = (bay: BayDesign, windMS: number): number => bay.leakagePerMS * Math.max(0.25, windMS);

/**
 * Through roof vents opened by a share (0 to 1). Vanthoor 2011, eq. 8.65: discharge 0.75, wind 0.09, vent height 0.68 m.
 * Left out: screens against insects, lee and windward sides.
 */
export function roofVentM3M2S(bay: BayDesign, openShare: number, insideC: number, outsideC: number, windMS: number): number {
  const chimney = 9.81 * 0.68 * Math.max(0, insideC - outsideC) / (2 * ((insideC + outsideC) / 2 + KELVIN));
  return openShare * bay.ventAreaToFloor * 0.75 / 2 * Math.sqrt(chimney + 0.09 * windMS ** 2);
}

/** kg of vapour per m2 and s that an air flow carries from vapour pressure inside (Pa) to outside. Vanthoor 2011, eq. 8.45. */
export const vapourFlowKgM2S = (flowM3M2S: number, insidePa: number, insideC: number, outsidePa: number, outsideC: number): number =>
  18 / 8314 * flowM3M2S * (insidePa / (insideC + KELVIN) - outsidePa / (outsideC + KELVIN));
