/** A bay with sourced defaults, and what a bay may not be. */
import type { Refusal } from '../refusal.ts';
import type { BayDesign, LampDesign } from './types.ts';

/**
 * Single glass with an energy screen, as a start: replace what is known of the real house.
 * Light: 0.85 glass, 0.9 structure, Vanthoor 2011 table 8.2. Heat loss: Mihara & Hayashi 1979, 4.41 + 0.40 wind (glass) and
 * 2.93 + 0.10 wind (glass and curtain). Cover to floor 1.21, vents 11.7 %, height 4.2 m, set-points, screen rule, vents 5 K
 * above heating, humidity 87 %: the house of Katzin et al. 2021. Leakage: Vanthoor 2011 eq. 8.71. Screen light 0.60:
 * Vanthoor 2011, Katzin 2021. Useful shares of sun (0.25) and lamps (0.34): fitted to a published dynamic model, not to a house.
 * Largest dose 5 g/(m2 h) of carbon dioxide: common practice, no source.
 */
export const GLASS_BAY: BayDesign = {
  coverTransmissivity: 0.85, structureTransmissivity: 0.9, coverToFloor: 1.21,
  uWM2K: { calm: 4.41, perMS: 0.4 },
  screen: { uWM2K: { calm: 2.93, perMS: 0.1 }, parTransmissivity: 0.6, closesBelowDayC: 5, closesBelowNightC: 10 },
  airHeightM: 4.2, leakagePerMS: 1e-4, ventAreaToFloor: 0.117,
  heatDayC: 19.5, heatNightC: 18.5, ventAboveHeatK: 5, rhMaxPct: 87,
  co2DoseGM2H: 5, usefulSunShare: 0.25, usefulLampShare: 0.34,
  leafAreaIndex: 1.5, groundCover: 0.7,
};

type Limits = Readonly<Record<string, readonly [least: number, most: number, unit: string]>>;

const BAY_LIMITS: Limits = {
  coverTransmissivity: [0, 1, '1'], structureTransmissivity: [0, 1, '1'], coverToFloor: [1, 4, 'm2/m2'], airHeightM: [1.5, 15, 'm'],
  leakagePerMS: [0, 0.005, '1'], ventAreaToFloor: [0, 1, 'm2/m2'], heatDayC: [0, 35, 'Cel'], heatNightC: [0, 35, 'Cel'], ventAboveHeatK: [0, 20, 'K'],
  rhMaxPct: [50, 100, '%'], co2SetPpm: [350, 2000, '[ppm]'], co2DoseGM2H: [0, 100, 'g/m2/h'], usefulSunShare: [0, 1, '1'], usefulLampShare: [0, 1, '1'],
  leafAreaIndex: [0, 10, 'm2/m2'], groundCover: [0, 1, '1'],
};
const LINE_LIMITS: Limits = { calm: [0.3, 15, 'W/m2/K'], perMS: [0, 3, 'W.s/m3/K'] };
const SCREEN_LIMITS: Limits = { parTransmissivity: [0, 1, '1'], closesBelowDayC: [-50, 50, 'Cel'], closesBelowNightC: [-50, 50, 'Cel'] };
const LAMP_LIMITS: Limits = {
  ppfdUmolM2S: [1, 2000, 'umol/m2/s'], efficacyUmolJ: [0.3, 5, 'umol/J'], onFromH: [0, 24, 'h'], onUntilH: [0, 24, 'h'],
  offAboveGlobalWM2: [0, 1500, 'W/m2'], targetDliMolM2: [0, 80, 'mol/m2/d'],
};

/** Every number of a record outside its limits; an absent optional one is none of our business. */
function outside(record: object, limits: Limits, path: string): Refusal[] {
  return Object.entries(limits).flatMap(([key, [least, most, unit]]): Refusal[] => {
    const value = (record as Record<string, unknown>)[key];
    if (value === undefined || (typeof value === 'number' && value >= least && value <= most)) return [];
    return [{
      code: 'value-out-of-range', path: `${path}.${key}`, value, limit: [least, most], unit, severity: 'error',
      message: `${key} should lie between ${least} and ${most} ${unit}.`,
    }];
  });
}

/** What is wrong with lamps. */
export const checkLamps = (lamps: LampDesign, path: string): readonly Refusal[] => outside(lamps, LAMP_LIMITS, path);

/** Everything wrong with a bay at once; empty when it can be simulated. */
export function checkBay(bay: BayDesign, path = 'bay'): readonly Refusal[] {
  return [
    ...outside(bay, BAY_LIMITS, path), ...outside(bay.uWM2K, LINE_LIMITS, `${path}.uWM2K`),
    ...(bay.screen === undefined ? [] : [...outside(bay.screen, SCREEN_LIMITS, `${path}.screen`), ...outside(bay.screen.uWM2K, LINE_LIMITS, `${path}.screen.uWM2K`)]),
    ...(bay.lamps === undefined ? [] : checkLamps(bay.lamps, `${path}.lamps`)),
  ];
}
