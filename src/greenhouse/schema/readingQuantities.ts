import type { QuantityMeaning } from './quantity.ts';

const is = (unit: string, min: number, max: number, meaning: string): QuantityMeaning => ({ unit, min, max, meaning });

/** What instruments may report. Beyond its range the instrument or the unit is wrong, not the greenhouse. */
export const READING_QUANTITIES = {
  ecMsPerCm25: is('mS/cm', 0, 30, 'Conductivity of the water at 25 C'),
  pH: is('[pH]', 0, 14, 'pH of the water'),
  levelMm: is('mm', 0, 2000, 'Water level above the bottom of the basin'),
  volumeL: is('L', 0, 1e7, 'Volume in a basin or tank'),
  waterC: is('Cel', -5, 60, 'Water temperature'),
  airC: is('Cel', -40, 70, 'Air temperature'),
  rhPct: is('%', 0, 100, 'Relative humidity'),
  co2Ppm: is('[ppm]', 0, 10_000, 'CO2 in the air by volume'),
  ppfdUmolM2S: is('umol/(m2.s)', 0, 3000, 'Photosynthetic photon flux density at crop height'),
  globalWm2: is('W/m2', 0, 1500, 'Global radiation outdoors'),
} as const satisfies Record<string, QuantityMeaning>;

export type ReadingQuantity = keyof typeof READING_QUANTITIES;
