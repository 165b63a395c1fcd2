import { Temporal } from 'temporal-polyfill';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { BayDescription, GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { simulateClimateInside } from '../../science/climate/climateInside.ts';
import { completeWeather } from '../../science/climate/completeWeather.ts';
import { overlayMeasured } from '../../science/climate/overlayMeasured.ts';
import { readEpw } from '../../science/climate/readEpw.ts';
import { readWeatherCsv } from '../../science/climate/readWeatherCsv.ts';
import { LETTUCE_UNDER_GLASS } from '../../science/climate/transpiration.ts';
import { prepareTranspiration, type TranspirationTable } from '../../science/climate/transpirationTable.ts';
import { typicalOutlook } from '../../science/climate/typicalWeather.ts';
import type { CompleteWeather, InsideClimate } from '../../science/climate/types.ts';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { bayDesignOf } from './bayDesignOf.ts';
import { measuredBayClimate } from './measuredBayClimate.ts';

/** Climate above the crop of one bay over the days that a plan looks at: measured where there are readings, else simulated. */
export interface BayClimate {
  readonly bay: BayDescription;
  readonly inside: InsideClimate;
  readonly transpiration: TranspirationTable;
  /** Share of the hours before now in which at least temperature was measured. */
  readonly measuredShare: number;
}

export interface BayClimates {
  readonly byBay: Readonly<Record<string, BayClimate>>;
  readonly startMs: number;
  readonly hours: number;
  readonly utcOffsetH: number;
  readonly weatherOrigin: readonly string[];
  /** Weather outside over the same hours. */
  readonly outdoor: CompleteWeather;
}

/** Canopy that stands for the crops of a bay where only humidity and carbon dioxide feel it. */
export const MEAN_CANOPY = { leafAreaIndex: 1.5, groundCover: 0.7 };
const HOUR_MS = 3_600_000;

/**
 * Inside climate of every bay from one instant to another: the greenhouse's weather file as the outlook (a typical year
 * where the file is one), the bay's set-points and lamps, and the bay's own readings wherever there are any up to `atMs`.
 * Refuses a greenhouse without weather and weather that cannot be read.
 */
export function simulateBays(state: GreenhouseState, file: GreenhouseFile, readingsOf: (place: string) => readonly Reading[], span: { readonly fromMs: number; readonly atMs: number; readonly toMs: number }): Outcome<BayClimates> {
  const weather = readWeather(state, file);
  if (!weather.ok) return weather;
  const startMs = Math.floor(span.fromMs / HOUR_MS) * HOUR_MS;
  const hours = Math.ceil((span.toMs - startMs) / HOUR_MS);
  const outlook = typicalOutlook(weather.value, startMs, hours);
  const byBay = Object.fromEntries(file.bays.map((bay) => {
    const simulated = simulateClimateInside(outlook, bayDesignOf(bay, MEAN_CANOPY), 0, hours);
    const known = readingsOf(`bay:${bay.id}`).filter((reading) => Date.parse(reading.at) <= span.atMs);
    const inside = overlayMeasured(simulated, measuredBayClimate(known, simulated));
    return [bay.id, { bay, inside, transpiration: prepareTranspiration(inside, LETTUCE_UNDER_GLASS), measuredShare: measuredShare(inside, span.atMs) }];
  }));
  return accepted({ byBay, startMs, hours, utcOffsetH: outlook.utcOffsetH, weatherOrigin: weather.value.origin, outdoor: outlook }, weather.warnings);
}

function readWeather(state: GreenhouseState, file: GreenhouseFile): Outcome<CompleteWeather> {
  if (state.weather === undefined) return refused([{ code: 'value-missing', path: 'weather', message: 'No weather is given: add weather.epw or weather.csv to the greenhouse folder.', severity: 'error' }]);
  const { fileName, text } = state.weather;
  const { latitudeDeg, longitudeDeg, elevationM, timeZone } = file.location;
  const place = { name: file.name, latitudeDeg, longitudeDeg, elevationM, utcOffsetH: standardOffsetH(timeZone, 2025) };
  const read = fileName.toLowerCase().endsWith('.epw') ? readEpw(text, fileName) : readWeatherCsv(text, fileName, place);
  return read.ok ? completeWeather(read.value) : read;
}

/** Local standard time minus UTC, hours: the smaller of the offsets of January and July. */
export function standardOffsetH(timeZone: string, year: number): number {
  const offset = (month: number) => Temporal.ZonedDateTime.from({ timeZone, year, month, day: 1 }).offsetNanoseconds / 3.6e12;
  return Math.min(offset(1), offset(7));
}

function measuredShare(inside: InsideClimate, atMs: number): number {
  const past = Math.min(inside.hours, Math.floor((atMs - inside.startUtcMs) / HOUR_MS));
  if (past <= 0) return 0;
  let count = 0;
  for (let hour = 0; hour < past; hour++) if ((inside.measured[hour]! & 1) === 1) count++;
  return count / past;
}
