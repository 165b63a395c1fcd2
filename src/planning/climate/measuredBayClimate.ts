import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { HourGrid, MeasuredClimate, WeatherColumn } from '../../science/climate/types.ts';

const HOUR_MS = 3_600_000;
const MEASURED = ['airC', 'rhPct', 'co2Ppm', 'ppfdUmolM2S'] as const;
type Measured = (typeof MEASURED)[number];
/** Values outside are an instrument's fault, not climate: left out. */
const CREDIBLE: Readonly<Record<Measured, readonly [number, number]>> = { airC: [-30, 60], rhPct: [0, 100], co2Ppm: [150, 10_000], ppfdUmolM2S: [0, 3000] };

/**
 * Readings of a bay as hourly means on a grid. A reading stamped at an hour's end counts for the hour before it. Hours
 * without a reading are absent and say so.
 */
export function measuredBayClimate(readings: readonly Reading[], grid: HourGrid): MeasuredClimate {
  const sums: Partial<Record<Measured, { total: Float64Array; count: Int32Array }>> = {};
  for (const reading of readings) {
    const quantity = MEASURED.find((name) => name === reading.quantity);
    if (quantity === undefined) continue;
    const [least, most] = CREDIBLE[quantity];
    const hour = Math.floor((Date.parse(reading.at) - 1 - grid.startUtcMs) / HOUR_MS);
    if (!(hour >= 0 && hour < grid.hours && reading.value >= least && reading.value <= most)) continue;
    const sum = sums[quantity] ??= { total: new Float64Array(grid.hours), count: new Int32Array(grid.hours) };
    sum.total[hour]! += reading.value;
    sum.count[hour]! += 1;
  }
  const columns = MEASURED.flatMap((quantity) => (sums[quantity] === undefined ? [] : [[quantity, toColumn(sums[quantity])] as const]));
  return { startUtcMs: grid.startUtcMs, utcOffsetH: grid.utcOffsetH, hours: grid.hours, ...Object.fromEntries(columns) };
}

function toColumn({ total, count }: { total: Float64Array; count: Int32Array }): WeatherColumn {
  const absent = new Map<number, string>();
  const values = total.map((sum, hour) => {
    if (count[hour] === 0) { absent.set(hour, 'no reading in this hour'); return 0; }
    return sum / count[hour]!;
  });
  return { values, absent };
}
