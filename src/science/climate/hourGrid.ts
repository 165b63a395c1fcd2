/** Reading the clock of hourly arrays. Local means local standard time. */
import type { HourGrid } from './types.ts';

export const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Start of an hour, milliseconds since 1970-01-01T00:00Z. */
export const hourStartUtcMs = (grid: HourGrid, hour: number): number => grid.startUtcMs + hour * HOUR_MS;

/** Milliseconds of the local clock at the start of an hour, as if that clock were UTC. */
const localMs = (grid: HourGrid, hour: number): number => hourStartUtcMs(grid, hour) + grid.utcOffsetH * HOUR_MS;

/** Local clock at the start of an hour, 0 to under 24. */
export function localHourOfDay(grid: HourGrid, hour: number): number {
  const ms = localMs(grid, hour);
  return (ms - Math.floor(ms / DAY_MS) * DAY_MS) / HOUR_MS;
}

/** Number of the local day, counted from 1970-01-01. */
export const localDay = (grid: HourGrid, hour: number): number => Math.floor(localMs(grid, hour) / DAY_MS);

/** Day of the year of a local day number, 1 to 366. */
export function dayOfYearOf(localDayNumber: number): number {
  const year = new Date(localDayNumber * DAY_MS).getUTCFullYear();
  return localDayNumber - Date.UTC(year, 0, 1) / DAY_MS + 1;
}

/** Day of the year, 1 to 366, at the start of an hour. */
export const dayOfYear = (grid: HourGrid, hour: number): number => dayOfYearOf(localDay(grid, hour));

/** Local time of the start of an hour as "2024-06-01T13:00". */
export const localStamp = (grid: HourGrid, hour: number): string => new Date(localMs(grid, hour)).toISOString().slice(0, 16);

/** First hour of each local day in the grid, and the end of the last: day d has the hours from [d] up to, not including, [d + 1]. */
export function dayBounds(grid: HourGrid): readonly number[] {
  const bounds = [0];
  for (let hour = 1; hour < grid.hours; hour += 1) {
    if (localDay(grid, hour) !== localDay(grid, hour - 1)) bounds.push(hour);
  }
  return [...bounds, grid.hours];
}
