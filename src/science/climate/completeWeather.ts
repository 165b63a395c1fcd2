/**
 * From weather as read to hourly means without gaps. Short gaps are bridged and said so; long ones are refused, because
 * invented weather would look like measured weather in everything that follows.
 */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';
import { dayOfYear, localStamp } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import { relativeHumidityPct, saturationPressurePa, standardPressurePa } from './moistAir.ts';
import type { CompleteWeather, WeatherQuantity, WeatherSeries } from './types.ts';
import { valueAt, whyAbsent } from './weatherSeries.ts';

/** Longest gap that is bridged in a straight line, hours. */
const LONGEST_BRIDGE_H = 3;
/** Outdoor carbon dioxide where the file has none, ppm: the world's mean of about 2023 (from memory, unverified). */
export const OUTDOOR_CO2_PPM = 420;

/** Values of one quantity with holes, and what was done about them. */
interface Draft { readonly values: (number | undefined)[]; readonly notes: string[]; readonly refusals: Refusal[] }

/** Runs of hours without a value, as [first, past the last]. */
function openRuns(values: readonly (number | undefined)[]): [number, number][] {
  const runs: [number, number][] = [];
  values.forEach((value, hour) => {
    if (value !== undefined) return;
    const last = runs.at(-1);
    if (last !== undefined && last[1] === hour) last[1] = hour + 1;
    else runs.push([hour, hour + 1]);
  });
  return runs;
}

/** Fills short runs in a straight line between their neighbours, or with the one neighbour at an end. */
function bridgeRun(values: (number | undefined)[], from: number, to: number): void {
  const before = values[from - 1] ?? values[to] as number;
  const after = values[to] ?? before;
  for (let hour = from; hour < to; hour += 1) values[hour] = before + (after - before) * (hour - from + 1) / (to - from + 1);
}

/** Values of a quantity with its short gaps bridged; longer ones refused. */
function bridge(series: WeatherSeries, quantity: WeatherQuantity, values: (number | undefined)[]): Draft {
  const draft: Draft = { values, notes: [], refusals: [] };
  let bridged = 0;
  for (const [from, to] of openRuns(values)) {
    if (to - from > LONGEST_BRIDGE_H || to - from === values.length) {
      draft.refusals.push({
        code: 'value-missing', path: `${series.fileName}: ${localStamp(series, from)}`, value: to - from, limit: LONGEST_BRIDGE_H, unit: 'h', severity: 'error',
        message: `${quantity} is missing for ${to - from} hours from ${localStamp(series, from)}; up to ${LONGEST_BRIDGE_H} hours are bridged. First: ${whyAbsent(series, quantity, from)}.`,
      });
      continue;
    }
    bridgeRun(values, from, to);
    bridged += to - from;
  }
  if (bridged > 0) draft.notes.push(`${bridged} hours of ${quantity} bridged in a straight line`);
  return draft;
}

const collect = (series: WeatherSeries, value: (hour: number) => number | undefined): (number | undefined)[] =>
  Array.from({ length: series.hours }, (_, hour) => value(hour));

/** Relative humidity as stated, else from the dew point. */
function humidityAt(series: WeatherSeries, hour: number): number | undefined {
  const stated = valueAt(series, 'rhPct', hour);
  const [airC, dew] = [valueAt(series, 'airC', hour), valueAt(series, 'dewPointC', hour)];
  if (stated !== undefined || airC === undefined || dew === undefined) return stated;
  return Math.min(100, relativeHumidityPct(airC, saturationPressurePa(dew)));
}

/** Global radiation as stated, else from its direct and diffuse parts. */
function globalAt(series: WeatherSeries, hour: number, cosine: number): number | undefined {
  const stated = valueAt(series, 'globalWM2', hour);
  const [direct, diffuse] = [valueAt(series, 'directNormalWM2', hour), valueAt(series, 'diffuseWM2', hour)];
  return stated ?? (direct === undefined || diffuse === undefined ? undefined : diffuse + direct * cosine);
}

/** Global radiation, bridged as a share of what the sun sends above the atmosphere; 0 in hours without sun. */
function draftGlobal(series: WeatherSeries, cosines: Float64Array): Draft {
  const above = Array.from(cosines, (cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(series, hour)));
  const lit = above.flatMap((radiation, hour) => (radiation > 0 ? [hour] : []));
  const values = collect(series, (hour) => globalAt(series, hour, cosines[hour] as number) ?? (above[hour] as number > 0 ? undefined : 0));
  const known = values.map((value) => value !== undefined);
  const shares = lit.map((hour) => (values[hour] === undefined ? undefined : (values[hour] as number) / (above[hour] as number)));
  const draft = bridge(series, 'globalWM2', values.map((value, hour) => (known[hour] ? value : undefined)));
  if (draft.refusals.length > 0) return draft;
  for (const [from, to] of openRuns(shares)) bridgeRun(shares, from, to);
  lit.forEach((hour, index) => { if (!known[hour]) draft.values[hour] = Math.min(1, shares[index] as number) * (above[hour] as number); });
  return draft;
}

/** Means over the hour from values at its end. A typical year runs round: its first hour follows its last. */
function meansOfEnds(values: readonly number[], runsRound: boolean): Float64Array {
  const first = runsRound ? values.at(-1) : values[0];
  return Float64Array.from(values, (value, hour) => (value + (hour === 0 ? first as number : values[hour - 1] as number)) / 2);
}

function draftDiffuse(series: WeatherSeries, global: Float64Array, cosines: Float64Array): { values: Float64Array; derived: number } {
  let derived = 0;
  const values = Float64Array.from(global, (total, hour) => {
    const stated = valueAt(series, 'diffuseWM2', hour);
    if (stated !== undefined) return Math.min(stated, total);
    derived += 1;
    return splitGlobal(total, cosines[hour] as number, dayOfYear(series, hour)).diffuseWM2;
  });
  return { values, derived };
}

/**
 * Weather that the models can take.
 * @returns hourly means, all finite; refused where air temperature, humidity (or dew point), global radiation (or its
 * parts) or wind is missing for more than three hours on end. Pressure falls back to the standard atmosphere, diffuse
 * radiation to Erbs et al. 1982, carbon dioxide to 420 ppm; `origin` and the warnings say where.
 */
export function completeWeather(series: WeatherSeries): Outcome<CompleteWeather> {
  const cosines = hourlyCosines(series, series.place);
  const air = bridge(series, 'airC', collect(series, (hour) => valueAt(series, 'airC', hour)));
  const humidity = bridge(series, 'rhPct', collect(series, (hour) => humidityAt(series, hour)));
  const wind = bridge(series, 'windMS', collect(series, (hour) => valueAt(series, 'windMS', hour)));
  const global = draftGlobal(series, cosines);
  const drafts = [air, humidity, wind, global];
  const refusals = drafts.flatMap((draft) => draft.refusals);
  if (refusals.length > 0) return refused(refusals);
  const hourly = (draft: Draft): Float64Array => (series.airValues === 'at-hour-end'
    ? meansOfEnds(draft.values as number[], series.kind === 'typical-year') : Float64Array.from(draft.values as number[]));
  const globalWM2 = Float64Array.from(global.values as number[]);
  const diffuse = draftDiffuse(series, globalWM2, cosines);
  const notes = drafts.flatMap((draft) => draft.notes);
  if (diffuse.derived > 0) notes.push(`${diffuse.derived} hours of diffuse radiation from global radiation (Erbs et al. 1982)`);
  const pressure = standardPressurePa(series.place.elevationM);
  return accepted({
    startUtcMs: series.startUtcMs, utcOffsetH: series.utcOffsetH, hours: series.hours, place: series.place, kind: series.kind,
    origin: [series.fileName, ...notes],
    airC: hourly(air), rhPct: hourly(humidity), windMS: hourly(wind), globalWM2, diffuseWM2: diffuse.values,
    pressurePa: Float64Array.from(collect(series, (hour) => valueAt(series, 'pressurePa', hour) ?? pressure) as number[]),
    co2Ppm: Float64Array.from(collect(series, (hour) => valueAt(series, 'co2Ppm', hour) ?? OUTDOOR_CO2_PPM) as number[]),
  }, notes.map((message) => ({ code: 'value-missing', path: series.fileName, message: `${message}.`, severity: 'warning' })));
}
