/**
 * An ensemble of weather ahead. Each day's mean temperature and clearness depart from the smooth course of the year by an
 * anomaly that remembers the day before (first-order autoregression); hours keep the shape of the typical day.
 * Random numbers are arguments: independent standard normal draws.
 *
 * Left out: the tie between cloud and temperature, and the difference between whole years. A typical year is stitched from
 * typical months, so the spread of a month's mean comes out too small.
 */
import type { Outcome } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';
import { dayBounds, dayOfYear, dayOfYearOf, HOUR_MS, localDay } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import { typicalOutlook } from './typicalWeather.ts';
import type { CompleteWeather, HourGrid } from './types.ts';
import type { YearCurve } from './yearCurve.ts';
import { fitYearCurve, yearCurveAt } from './yearCurve.ts';

/** Clearness of a cloudless day, the upper end of the anomalies' scale; the Erbs split is constant beyond it. */
const CLEAR = 0.8;
const LEAST_CLEARNESS = 0.02;

/** How one daily quantity varies: its course, the standard deviation about it over the year, and its memory from day to day. */
interface DailyCourse {
  readonly course: YearCurve;
  readonly deviation: YearCurve;
  /** Correlation of a day's anomaly with the day before, 0 to 1. */
  readonly memory: number;
}

/** Temperature in C; clearness on a log-odds scale between 0 and that of a cloudless day. */
export interface WeatherVariability {
  readonly temperature: DailyCourse;
  readonly clearness: DailyCourse;
}

/** Clearness (0 to 0.8) on the log-odds scale, and back. */
const toOdds = (clearness: number): number => {
  const within = Math.max(LEAST_CLEARNESS, Math.min(CLEAR - LEAST_CLEARNESS, clearness));
  return Math.log(within / (CLEAR - within));
};
const fromOdds = (odds: number): number => CLEAR / (1 + Math.exp(-odds));

/** Extraterrestrial radiation on the horizontal, W/m2, mean of each hour. */
const radiationAbove = (weather: CompleteWeather, cosines: Float64Array): Float64Array =>
  cosines.map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(weather, hour)));

interface Days { readonly bounds: readonly number[]; readonly meanC: readonly number[]; readonly odds: readonly (number | undefined)[]; readonly daysOfYear: readonly number[] }

/** Daily means of temperature and clearness (log-odds); clearness is undefined where the sun does not rise. */
function summariseDays(weather: CompleteWeather, above: Float64Array): Days {
  const bounds = dayBounds(weather);
  const spans = bounds.slice(0, -1).map((from, index) => [from, bounds[index + 1] as number] as const);
  const sum = (values: Float64Array, [from, to]: readonly [number, number]): number => values.subarray(from, to).reduce((total, one) => total + one, 0);
  return {
    bounds, daysOfYear: spans.map(([from]) => dayOfYearOf(localDay(weather, from))),
    meanC: spans.map((span) => sum(weather.airC, span) / (span[1] - span[0])),
    odds: spans.map((span) => (sum(above, span) > 0 ? toOdds(sum(weather.globalWM2, span) / sum(above, span)) : undefined)),
  };
}

/** Course, spread and memory of 365 daily values. */
function describeCourse(values: readonly number[]): DailyCourse {
  const course = fitYearCurve(values, 2);
  const anomalies = values.map((value, index) => value - yearCurveAt(course, index + 1));
  const overall = Math.sqrt(anomalies.reduce((sum, one) => sum + one * one, 0) / anomalies.length);
  const variance = fitYearCurve(anomalies.map((one) => one * one), 1);
  const deviationOf = (day: number): number => Math.sqrt(Math.max(0.25 * overall * overall, yearCurveAt(variance, day)));
  const deviation = fitYearCurve(values.map((_, index) => deviationOf(index + 1)), 1);
  const scaled = anomalies.map((one, index) => one / yearCurveAt(deviation, index + 1));
  const products = scaled.slice(1).reduce((sum, one, index) => sum + one * (scaled[index] as number), 0);
  const memory = products / scaled.reduce((sum, one) => sum + one * one, 0);
  return { course, deviation, memory: Math.max(0, Math.min(0.98, memory)) };
}

/** How a place's days vary, from a whole year of its weather. Refused: less than 365 whole days. */
export function estimateVariability(year: CompleteWeather): Outcome<WeatherVariability> {
  const days = summariseDays(year, radiationAbove(year, hourlyCosines(year, year.place)));
  if (days.meanC.length < 365) {
    return refused([{ code: 'value-missing', path: year.origin[0] ?? 'weather', value: days.meanC.length, limit: 365, unit: 'd', severity: 'error', message: 'An ensemble of weather needs a year of it; this series is shorter.' }]);
  }
  const lit = days.odds.filter((one) => one !== undefined);
  const usual = lit.reduce((sum, one) => sum + one, 0) / lit.length;
  return accepted({
    temperature: describeCourse(days.meanC.slice(0, 365)),
    clearness: describeCourse(days.odds.slice(0, 365).map((one) => one ?? usual)),
  });
}

/** Departures of the day before the outlook from the course of the year, where they are known. */
export interface StartAnomaly { readonly temperatureK?: number; readonly clearnessOdds?: number }

/** Anomalies of consecutive days: the first from the known day before or from the whole spread, each with its memory. */
function drawAnomalies(course: DailyCourse, daysOfYear: readonly number[], normals: (day: number) => number, start: number | undefined): number[] {
  const fresh = Math.sqrt(1 - course.memory ** 2);
  let scaled = start === undefined ? undefined : start / yearCurveAt(course.deviation, daysOfYear[0] as number);
  return daysOfYear.map((day, index) => {
    const draw = normals(index);
    scaled = scaled === undefined ? draw : course.memory * scaled + fresh * draw;
    return scaled * yearCurveAt(course.deviation, day);
  });
}

/** Change of temperature in each hour: straight lines between the changes of the days at their middles, so that midnight has no step. */
function hourlyShift(changes: readonly number[], bounds: readonly number[], hours: number): Float64Array {
  const middle = (day: number): number => ((bounds[day] as number) + (bounds[day + 1] as number)) / 2;
  const shifts = new Float64Array(hours);
  let day = 0;
  for (let hour = 0; hour < hours; hour += 1) {
    while (day + 1 < changes.length && hour + 0.5 >= middle(day + 1)) day += 1;
    const next = Math.min(day + 1, changes.length - 1);
    const share = next === day ? 0 : Math.max(0, Math.min(1, (hour + 0.5 - middle(day)) / (middle(next) - middle(day))));
    shifts[hour] = (changes[day] as number) + share * ((changes[next] as number) - (changes[day] as number));
  }
  return shifts;
}

/** Brings a day's radiation to another clearness: darker by one factor, brighter towards the cloudless course. Keeps the day's sum exact. */
function recloud(global: Float64Array, above: Float64Array, from: number, to: number, clearness: number): void {
  let [sum, sumAbove] = [0, 0];
  for (let hour = from; hour < to; hour += 1) {
    sum += global[hour] as number;
    sumAbove += above[hour] as number;
  }
  const now = sumAbove > 0 ? sum / sumAbove : 0;
  const brighter = clearness > now ? (clearness - now) / (CLEAR - now) : 0;
  for (let hour = from; hour < to; hour += 1) {
    const old = global[hour] as number;
    global[hour] = clearness > now ? old + brighter * (CLEAR * (above[hour] as number) - old) : now === 0 ? 0 : old * clearness / now;
  }
}

/** Whole local days around the asked hours. */
function wholeDays(grid: Pick<HourGrid, 'utcOffsetH'>, startUtcMs: number, hours: number): { startUtcMs: number; days: number; skip: number } {
  const offsetMs = grid.utcOffsetH * HOUR_MS;
  const dayMs = 24 * HOUR_MS;
  const first = Math.floor((startUtcMs + offsetMs) / dayMs);
  const last = Math.ceil((startUtcMs + hours * HOUR_MS + offsetMs) / dayMs);
  const start = first * dayMs - offsetMs;
  return { startUtcMs: start, days: last - first, skip: Math.floor((startUtcMs - start) / HOUR_MS) };
}

/** What all members of an ensemble share. */
export interface WeatherEnsemble {
  readonly variability: WeatherVariability;
  /** Standard normal draws that one member takes: two for each local day it touches. */
  readonly drawsPerMember: number;
  /** Typical weather of the whole days, and the hours of them that were asked for. */
  readonly base: CompleteWeather;
  readonly skip: number;
  readonly hours: number;
  readonly cosines: Float64Array;
  readonly above: Float64Array;
  readonly days: Days;
}

/**
 * Prepares an ensemble from an instant on for some hours.
 * @param weather a typical year or a longer history, complete
 */
export function prepareEnsemble(weather: CompleteWeather, variability: WeatherVariability, startUtcMs: number, hours: number): WeatherEnsemble {
  const span = wholeDays(weather, startUtcMs, hours);
  const base = typicalOutlook(weather, span.startUtcMs, span.days * 24);
  const cosines = hourlyCosines(base, base.place);
  const above = radiationAbove(base, cosines);
  return { variability, drawsPerMember: 2 * span.days, base, skip: span.skip, hours, cosines, above, days: summariseDays(base, above) };
}

/** Radiation of a member: every day that has a sun brought to its drawn clearness. */
function drawRadiation(ensemble: WeatherEnsemble, normals: ArrayLike<number>, start: number | undefined): Float64Array {
  const { days, above, variability: { clearness } } = ensemble;
  const global = ensemble.base.globalWM2.slice();
  drawAnomalies(clearness, days.daysOfYear, (day) => normals[2 * day + 1] as number, start).forEach((anomaly, day) => {
    const odds = yearCurveAt(clearness.course, days.daysOfYear[day] as number) + anomaly;
    if (days.odds[day] !== undefined) recloud(global, above, days.bounds[day] as number, days.bounds[day + 1] as number, fromOdds(odds));
  });
  return global;
}

/** Temperature of a member: hours keep their shape, days move to their drawn means. */
function drawTemperature(ensemble: WeatherEnsemble, normals: ArrayLike<number>, start: number | undefined): Float64Array {
  const { days, base, variability: { temperature } } = ensemble;
  const warmth = drawAnomalies(temperature, days.daysOfYear, (day) => normals[2 * day] as number, start);
  const changes = days.meanC.map((mean, day) => yearCurveAt(temperature.course, days.daysOfYear[day] as number) + (warmth[day] as number) - mean);
  const shifts = hourlyShift(changes, days.bounds, base.hours);
  return base.airC.map((airC, hour) => airC + (shifts[hour] as number));
}

/**
 * One member of an ensemble.
 * @param normals `drawsPerMember` independent standard normal numbers; all 0 with no start gives the smooth course of the year
 * @param start departures of the day before, so that the ensemble starts from the weather there is
 */
export function outlookMember(ensemble: WeatherEnsemble, normals: ArrayLike<number>, start: StartAnomaly = {}): CompleteWeather {
  const { base, skip, hours, cosines } = ensemble;
  if (normals.length < ensemble.drawsPerMember) throw new RangeError(`a member takes ${ensemble.drawsPerMember} draws, got ${normals.length}`);
  const global = drawRadiation(ensemble, normals, start.clearnessOdds);
  const cut = (values: Float64Array): Float64Array => values.slice(skip, skip + hours);
  return {
    ...base, startUtcMs: base.startUtcMs + skip * HOUR_MS, hours, origin: [...base.origin, 'one member of an ensemble'],
    airC: cut(drawTemperature(ensemble, normals, start.temperatureK)), rhPct: cut(base.rhPct), pressurePa: cut(base.pressurePa), globalWM2: cut(global),
    diffuseWM2: cut(global.map((value, hour) => splitGlobal(value, cosines[hour] as number, dayOfYear(base, hour)).diffuseWM2)),
    windMS: cut(base.windMS), co2Ppm: cut(base.co2Ppm),
  };
}
