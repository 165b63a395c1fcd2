import type { BasinState } from '../../greenhouse/state.ts';
import { sumTranspirationLPerM2 } from '../../science/climate/transpirationTable.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { basinAreaM2 } from '../../greenhouse/basinGeometry.ts';
import type { LotExpectation } from './forecastLots.ts';

const HOUR_MS = 3_600_000;

/** Water that the plants of a basin transpire in a span of time, litres. Zero for a basin without plants. */
export type LitresBetween = (fromMs: number, toMs: number) => number;

/**
 * Transpiration of a basin hour by hour from the climate of its bay and the leaf area of its lot's forecast (Graamans et
 * al. 2017), as a running sum. Before the plants came into this basin nothing is transpired from it. Dew counts as nothing.
 */
export function litresBetween(basin: BasinState, expectation: LotExpectation | undefined, climates: BayClimates): LitresBetween {
  const climate = climates.byBay[basin.bay];
  if (basin.planting === undefined || climate === undefined || expectation?.forecast === undefined) return () => 0;
  const placedMs = Date.parse(`${basin.planting.placed}T00:00:00Z`) - climates.utcOffsetH * HOUR_MS;
  const sum = new Float64Array(climates.hours + 1);
  let hour = 0;
  for (const day of expectation.forecast.dates) {
    const endHour = Math.min(climates.hours, Math.round((Date.parse(`${day.date}T00:00:00Z`) - climates.utcOffsetH * HOUR_MS + 24 * HOUR_MS - climates.startMs) / HOUR_MS));
    for (; hour < endHour; hour++) {
      const litres = climates.startMs + hour * HOUR_MS < placedMs ? 0 : sumTranspirationLPerM2(climate.transpiration, hour, hour + 1, day);
      sum[hour + 1] = sum[hour]! + Math.max(0, litres) * basinAreaM2(basin.type);
    }
  }
  for (; hour < climates.hours; hour++) sum[hour + 1] = sum[hour]!;
  const upTo = (ms: number): number => {
    const position = Math.min(climates.hours, Math.max(0, (ms - climates.startMs) / HOUR_MS));
    const whole = Math.floor(position);
    return whole >= climates.hours ? sum[climates.hours]! : sum[whole]! + (position - whole) * (sum[whole + 1]! - sum[whole]!);
  };
  return (fromMs, toMs) => upTo(toMs) - upTo(fromMs);
}
