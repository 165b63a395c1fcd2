/**
 * Weather for days ahead from a weather file: its own hours where it has them, otherwise the same calendar hour of a
 * typical or earlier year. Pure: the start is an argument.
 */
import { HOUR_MS, hourStartUtcMs } from './hourGrid.ts';
import type { CompleteWeather } from './types.ts';

const WEEK_H = 168;
const YEAR_H = 8760;

/** Hour of a calendar date (local clock, ms as if UTC) in another year; 29 February becomes 28 February where there is none. */
function inYear(localMs: number, year: number): number {
  const date = new Date(localMs);
  const moved = Date.UTC(year, date.getUTCMonth(), date.getUTCDate(), date.getUTCHours(), date.getUTCMinutes());
  return new Date(moved).getUTCMonth() === date.getUTCMonth() ? moved : moved - 24 * HOUR_MS;
}

/** Index of the latest hour with the same calendar date and clock, or undefined. */
function sameCalendarHour(weather: CompleteWeather, localMs: number): number | undefined {
  const offsetMs = weather.utcOffsetH * HOUR_MS;
  const lastYear = new Date(hourStartUtcMs(weather, weather.hours - 1) + offsetMs).getUTCFullYear();
  const firstYear = new Date(weather.startUtcMs + offsetMs).getUTCFullYear();
  for (let year = lastYear; year >= firstYear; year -= 1) {
    const hour = Math.floor((inYear(localMs, year) - offsetMs - weather.startUtcMs) / HOUR_MS);
    if (hour >= 0 && hour < weather.hours) return hour;
  }
  return undefined;
}

/** Beyond a short file: its last (or first) whole days, at most seven, over and over, at the same clock hour. */
function repeatedHour(weather: CompleteWeather, hour: number): number {
  const period = weather.hours >= 24 ? Math.min(WEEK_H, Math.floor(weather.hours / 24) * 24) : weather.hours;
  const from = hour < 0 ? 0 : weather.hours - period;
  return from + ((hour - from) % period + period) % period;
}

type Origin = 'own' | 'calendar' | 'repeated';

function sourceHour(weather: CompleteWeather, utcMs: number): { hour: number; origin: Origin } {
  const hour = Math.floor((utcMs - weather.startUtcMs) / HOUR_MS);
  if (weather.kind === 'dated' && hour >= 0 && hour < weather.hours) return { hour, origin: 'own' };
  const calendar = weather.hours >= YEAR_H ? sameCalendarHour(weather, utcMs + weather.utcOffsetH * HOUR_MS) : undefined;
  return calendar === undefined ? { hour: repeatedHour(weather, hour), origin: 'repeated' } : { hour: calendar, origin: 'calendar' };
}

const ORIGIN_WORDS: Readonly<Record<Origin, string>> = {
  own: 'of the file itself', calendar: 'from the same calendar hour of the typical or an earlier year', repeated: 'repeated from the nearest days of a file that does not reach so far',
};

/**
 * Weather from an instant on for some hours, dated. A dated file gives its own hours where it has them; a file of a year or
 * more the same calendar hour; a shorter file repeats its nearest week. `origin` counts which hours came from where.
 * @param startUtcMs start of the first hour, on a full local hour (others are taken back to it)
 */
export function typicalOutlook(weather: CompleteWeather, startUtcMs: number, hours: number): CompleteWeather {
  const offsetMs = weather.utcOffsetH * HOUR_MS;
  const start = Math.floor((startUtcMs + offsetMs) / HOUR_MS) * HOUR_MS - offsetMs;
  const counts: Record<Origin, number> = { own: 0, calendar: 0, repeated: 0 };
  const sources = Array.from({ length: hours }, (_, hour) => {
    const source = sourceHour(weather, start + hour * HOUR_MS);
    counts[source.origin] += 1;
    return source.hour;
  });
  const pick = (values: Float64Array): Float64Array => Float64Array.from(sources, (source) => values[source] as number);
  const notes = (Object.keys(counts) as Origin[]).filter((origin) => counts[origin] > 0).map((origin) => `${counts[origin]} hours ${ORIGIN_WORDS[origin]}`);
  return {
    startUtcMs: start, utcOffsetH: weather.utcOffsetH, hours, place: weather.place, kind: 'dated', origin: [...weather.origin, ...notes],
    airC: pick(weather.airC), rhPct: pick(weather.rhPct), pressurePa: pick(weather.pressurePa), globalWM2: pick(weather.globalWM2),
    diffuseWM2: pick(weather.diffuseWM2), windMS: pick(weather.windMS), co2Ppm: pick(weather.co2Ppm),
  };
}
