/**
 * A typical year from twelve published monthly means, for a place without a weather file. Smooth by nature: no cloudy spells,
 * no cold snaps. Days lie on straight lines between the middles of months, bent so that
 * months keep their means; each day has one clearness from dawn to dusk,
 * temperature a cosine with its top at 15:00 local standard time (common practice, no source), vapour pressure and wind no
 * daily course. `assumedVariability` gives its ensemble the spread that it lacks.
 */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { OUTDOOR_CO2_PPM } from './completeWeather.ts';
import { extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';
import { dayOfYear, HOUR_MS, localHourOfDay } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import { saturationPressurePa, standardPressurePa } from './moistAir.ts';
import type { CompleteWeather, WeatherPlace } from './types.ts';
import type { WeatherVariability } from './weatherEnsemble.ts';
import { estimateVariability } from './weatherEnsemble.ts';

/** Means of one month. */
export interface MonthMeans {
  readonly airC: number;
  /** Mean of daily maximum less daily minimum. */
  readonly dailyRangeK: number;
  readonly rhPct: number;
  /** Global radiation, MJ per m2 and day. */
  readonly globalMJM2: number;
  readonly windMS: number;
}

const LIMITS: Readonly<Record<keyof MonthMeans, readonly [least: number, most: number, unit: string]>> = {
  airC: [-60, 50, 'Cel'], dailyRangeK: [0, 40, 'K'], rhPct: [1, 100, '%'], globalMJM2: [0, 45, 'MJ/m2/d'], windMS: [0, 40, 'm/s'],
};
const YEAR_H = 8760;
const YEAR = 2001;
/** No day is clearer than this share of extraterrestrial radiation. */
const CLEAR = 0.8;

function checkMonths(months: readonly MonthMeans[], path: string): Refusal[] {
  if (months.length !== 12) return [{ code: 'value-missing', path, value: months.length, limit: 12, severity: 'error', message: 'A year has means of twelve months.' }];
  return months.flatMap((month, index) => (Object.keys(LIMITS) as (keyof MonthMeans)[]).flatMap((key): Refusal[] => {
    const [least, most, unit] = LIMITS[key];
    if (month[key] >= least && month[key] <= most) return [];
    return [{ code: 'value-out-of-range', path: `${path}[${index}].${key}`, value: month[key], limit: [least, most], unit, severity: 'error', message: `${key} should lie between ${least} and ${most} ${unit}.` }];
  }));
}

/** Day of the year of the middle of each month of a common year. */
const MIDDLES = Array.from({ length: 12 }, (_, month) => (Date.UTC(YEAR, month, 1) + Date.UTC(YEAR, month + 1, 1)) / 2 / (24 * HOUR_MS) - Date.UTC(YEAR, 0, 1) / (24 * HOUR_MS));

type Course = (day: number) => number;

/** Value on a day (0 to 365, fractions too) on straight lines between values at the middles of months, round the year. */
function between(knots: readonly number[], day: number): number {
  const next = MIDDLES.findIndex((middle) => middle > day);
  const [to, from] = next < 0 ? [0, 11] : [next, (next + 11) % 12];
  const start = MIDDLES[from] as number;
  const share = ((day - start + 365) % 365) / (((MIDDLES[to] as number) - start + 365) % 365);
  return (knots[from] as number) * (1 - share) + (knots[to] as number) * share;
}

/** Mean of each month of the lines through some knots. */
function meansOfLines(knots: readonly number[]): number[] {
  const [sums, counts] = [new Float64Array(12), new Float64Array(12)];
  for (let day = 0; day < 365; day += 1) {
    const month = new Date(Date.UTC(YEAR, 0, 1 + day)).getUTCMonth();
    sums[month] = (sums[month] as number) + between(knots, day + 0.5);
    counts[month] = (counts[month] as number) + 1;
  }
  return Array.from(sums, (sum, month) => sum / (counts[month] as number));
}

/** Course of a quantity whose months have the given means: lines through the means alone would cut off summits and troughs. */
function courseOf(months: readonly MonthMeans[], key: keyof MonthMeans): Course {
  const wanted = months.map((month) => month[key]);
  let knots = wanted;
  for (let round = 0; round < 20; round += 1) {
    const found = meansOfLines(knots);
    knots = knots.map((knot, month) => knot + (wanted[month] as number) - (found[month] as number));
  }
  const [least, most] = LIMITS[key];
  return (day) => Math.max(least, Math.min(most, between(knots, day)));
}

/** Global radiation with one clearness a day. */
function radiation(dailyMJ: (day: number) => number, above: Float64Array): Float64Array {
  const global = new Float64Array(YEAR_H);
  for (let day = 0; day < 365; day += 1) {
    const hours = above.subarray(day * 24, day * 24 + 24);
    const sumMJ = hours.reduce((sum, one) => sum + one, 0) * 3600 / 1e6;
    const clearness = sumMJ === 0 ? 0 : Math.min(CLEAR, dailyMJ(day + 0.5) / sumMJ);
    hours.forEach((one, hour) => { global[day * 24 + hour] = one * clearness; });
  }
  return global;
}

/** A typical year, complete, from twelve months. Refused: not twelve, or a mean outside what is possible. */
export function weatherFromMonths(months: readonly MonthMeans[], place: WeatherPlace): Outcome<CompleteWeather> {
  const refusals = checkMonths(months, 'months');
  if (refusals.length > 0) return refused(refusals);
  const grid = { startUtcMs: Date.UTC(YEAR, 0, 1) - place.utcOffsetH * HOUR_MS, utcOffsetH: place.utcOffsetH, hours: YEAR_H };
  const cosines = hourlyCosines(grid, place);
  const above = cosines.map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(grid, hour)));
  const globalWM2 = radiation(courseOf(months, 'globalMJM2'), above);
  const [meanC, rangeK, humidity, wind] = (['airC', 'dailyRangeK', 'rhPct', 'windMS'] as const).map((key) => courseOf(months, key)) as [Course, Course, Course, Course];
  const each = (value: (day: number, hour: number) => number): Float64Array => Float64Array.from({ length: YEAR_H }, (_, hour) => value((hour + 0.5) / 24, hour));
  const airC = each((day, hour) => meanC(day) + rangeK(day) / 2 * Math.cos(2 * Math.PI * (localHourOfDay(grid, hour) + 0.5 - 15) / 24));
  const rhPct = each((day, hour) => Math.min(100, humidity(day) * saturationPressurePa(meanC(day)) / saturationPressurePa(airC[hour] as number)));
  return accepted({
    ...grid, place, kind: 'typical-year', origin: [`monthly means of ${place.name}`], airC, rhPct, globalWM2,
    pressurePa: each(() => standardPressurePa(place.elevationM)), windMS: each((day) => wind(day)), co2Ppm: each(() => OUTDOOR_CO2_PPM),
    diffuseWM2: globalWM2.map((global, hour) => splitGlobal(global, cosines[hour] as number, dayOfYear(grid, hour)).diffuseWM2),
  });
}

const constant = (mean: number) => ({ mean, harmonics: [] });

/**
 * Spread for a smooth year: days of temperature deviate by 3.1 K with a memory of 0.68, clearness by 0.87 on the log-odds
 * scale with a memory of 0.29. These are the means of what `estimateVariability` finds in three TMY3 years (hot-dry, cold,
 * mild maritime: 2.0 to 4.5 K, 0.60 to 0.75; 0.87 to 0.88, 0.20 to 0.35).
 */
export function assumedVariability(year: CompleteWeather): Outcome<WeatherVariability> {
  const found = estimateVariability(year);
  if (!found.ok) return found;
  return accepted({
    temperature: { course: found.value.temperature.course, deviation: constant(3.1), memory: 0.68 },
    clearness: { course: found.value.clearness.course, deviation: constant(0.87), memory: 0.29 },
  });
}
