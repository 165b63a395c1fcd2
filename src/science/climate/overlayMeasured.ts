/** Measured climate in the place of simulated climate, hour by hour and quantity by quantity. */
import { HOUR_MS } from './hourGrid.ts';
import type { InsideClimate, MeasuredClimate } from './types.ts';

/** The bit of `InsideClimate.measured` that stands for a quantity. */
export const MEASURED_BITS = { airC: 1, rhPct: 2, co2Ppm: 4, ppfdUmolM2S: 8 } as const;
type Measurable = keyof typeof MEASURED_BITS;

/**
 * Simulated climate with measured values wherever there are any; `measured` says which. Heat, lamp electricity and dose stay
 * as simulated. A measured hour counts for the simulated hour that begins within the same hour; grids may be shifted by part
 * of an hour and overlap in part or not at all.
 */
export function overlayMeasured(simulated: InsideClimate, measured: MeasuredClimate): InsideClimate {
  const result = { ...simulated, measured: simulated.measured.slice() };
  const shift = Math.floor((simulated.startUtcMs - measured.startUtcMs) / HOUR_MS);
  for (const quantity of Object.keys(MEASURED_BITS) as Measurable[]) {
    const column = measured[quantity];
    if (column === undefined) continue;
    const values = simulated[quantity].slice();
    for (let hour = 0; hour < simulated.hours; hour += 1) {
      const from = hour + shift;
      if (from < 0 || from >= measured.hours || column.absent.has(from)) continue;
      values[hour] = column.values[from] as number;
      result.measured[hour] = (result.measured[hour] as number) | MEASURED_BITS[quantity];
    }
    result[quantity] = values;
  }
  return result;
}
