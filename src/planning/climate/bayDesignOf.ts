import type { BayDescription } from '../../greenhouse/schema/greenhouseFile.ts';
import { GLASS_BAY } from '../../science/climate/bayDesign.ts';
import type { BayDesign, LampDesign } from '../../science/climate/types.ts';

/** Photoperiods end at this clock time where lamps may not burn all day (common practice, no source). */
const LAMPS_OUT_H = 22;

/** A bay of greenhouse.yaml as the climate models take it; what the file does not say is GLASS_BAY's. */
export function bayDesignOf(bay: BayDescription, canopy: { readonly leafAreaIndex: number; readonly groundCover: number }): BayDesign {
  return {
    ...GLASS_BAY,
    // The file gives cover, structure and dirt as one number.
    coverTransmissivity: bay.parTransmissivity, structureTransmissivity: 1,
    coverToFloor: bay.coverToFloor, airHeightM: bay.heightM,
    heatDayC: bay.setPoints.airDayC, heatNightC: bay.setPoints.airNightC,
    ventAboveHeatK: Math.max(0, bay.setPoints.ventAboveC - bay.setPoints.airDayC),
    rhMaxPct: bay.setPoints.rhMaxPct, co2SetPpm: bay.setPoints.co2Ppm,
    ...(bay.lamps === undefined ? {} : { lamps: lampDesignOf(bay.lamps) }),
    ...canopy,
  };
}

function lampDesignOf(lamps: NonNullable<BayDescription['lamps']>): LampDesign {
  return {
    ppfdUmolM2S: lamps.ppfdUmolM2S, efficacyUmolJ: lamps.efficacyUmolPerJ,
    onFromH: (LAMPS_OUT_H - lamps.hoursPerDayMax + 24) % 24, onUntilH: lamps.hoursPerDayMax >= 24 ? 24 : LAMPS_OUT_H,
    offAboveGlobalWM2: lamps.onBelowGlobalWm2, targetDliMolM2: lamps.targetDliMolM2,
  };
}
