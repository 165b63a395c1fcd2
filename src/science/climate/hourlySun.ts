/** The sun over whole hours. */
import { HOUR_MS, hourStartUtcMs } from './hourGrid.ts';
import { cosineOfZenith } from './sun.ts';
import type { HourGrid, WeatherPlace } from './types.ts';

/** Instants an hour is sampled at: middles of its quarters. */
const QUARTERS = [0.125, 0.375, 0.625, 0.875];

/** Mean over each hour of the cosine of the sun's zenith, with 0 while the sun is down. */
export function hourlyCosines(grid: HourGrid, place: WeatherPlace): Float64Array {
  const cosines = new Float64Array(grid.hours);
  for (let hour = 0; hour < grid.hours; hour += 1) {
    let sum = 0;
    for (const share of QUARTERS) sum += Math.max(0, cosineOfZenith(hourStartUtcMs(grid, hour) + share * HOUR_MS, place.latitudeDeg, place.longitudeDeg));
    cosines[hour] = sum / QUARTERS.length;
  }
  return cosines;
}
