/** The forecast of a lot described by files: the pure part of `watermeadow forecast FILE`. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { dateOf, dayNumberOf } from './calendar.ts';
import { joinClimate, readClimateTable } from './climateTable.ts';
import type { ClimateTable } from './climateTable.ts';
import { KNOWN_CROP_GROWTHS } from './cropGrowths.ts';
import { refusalAt } from './csvTable.ts';
import { readDensities, readSamples } from './cropTables.ts';
import { checkForecastRequest } from './forecastRequest.ts';
import type { ForecastRequest } from './forecastRequest.ts';
import { forecastLot } from './forecastLot.ts';
import type { CropGrowth, DayForecast, ForecastBasis, GrowthAlarm, LotForecastInput } from './lotForecast.ts';
import { NOON_H } from './walkLot.ts';

/** The texts of the files that the request names. */
export interface ForecastTexts {
  readonly climateCsv: string;
  /** Absent where the request's outlookCsv is null. */
  readonly outlookCsv?: string;
  readonly plantsPerM2Csv: string;
  readonly samplesCsv: string;
}

/** The answer: only the days asked for, in the order asked. `dryG` and `freshG` are of the lot's mean shoot, `plant` of single plants. */
export interface ForecastAnswer {
  readonly dates: readonly Pick<DayForecast, 'date' | 'dryG' | 'freshG' | 'readyShare' | 'plant' | 'saleableShare'>[];
  readonly alarms: readonly GrowthAlarm[];
  readonly basis: ForecastBasis;
}

const MEMBERS = 400;
const SEED = 1;

/**
 * Forecasts the days that a request asks for.
 * Samples dated after `at` are never used; climate after the end of the day `at` comes from outlookCsv, or from climateCsv where that is null.
 * `crops` are known besides those of `KNOWN_CROP_GROWTHS` (a card overrides a known crop of the same name).
 * Refuses, all at once: unknown keys, crops and dates; tables with wrong places; climate that does not reach the last date.
 */
export function forecastFile(input: unknown, texts: ForecastTexts, crops: Readonly<Record<string, CropGrowth>> = {}): Outcome<ForecastAnswer> {
  const request = checkForecastRequest(input, { ...KNOWN_CROP_GROWTHS, ...crops });
  const named = request.ok ? request.value : undefined;
  const densities = readDensities(texts.plantsPerM2Csv, named?.plantsPerM2Csv ?? 'plantsPerM2Csv');
  const samples = readSamples(texts.samplesCsv, named?.samplesCsv ?? 'samplesCsv');
  const measured = readClimateTable(texts.climateCsv, named?.climateCsv ?? 'climateCsv');
  const outlook = texts.outlookCsv === undefined ? measured : readClimateTable(texts.outlookCsv, named?.outlookCsv ?? 'outlookCsv');
  if (!request.ok || !densities.ok || !samples.ok || !measured.ok || !outlook.ok) {
    return refused([...new Set([request, densities, samples, measured, outlook])].flatMap((outcome): readonly Refusal[] => (outcome.ok ? [] : outcome.refusals)));
  }
  return forecastDates(request.value, {
    densities: densities.value, samples: samples.value.filter((sample) => sample.date <= request.value.at),
  }, measured.value, request.value.outlookCsv === null ? measured.value : outlook.value);
}

function forecastDates(request: ForecastRequest, lot: Pick<LotForecastInput, 'densities' | 'samples'>, measured: ClimateTable, outlook: ClimateTable): Outcome<ForecastAnswer> {
  const begun = beginLot(request, measured);
  const atDay = dayNumberOf(request.at)!;
  const lastDay = Math.max(atDay, ...request.dates.map((date) => dayNumberOf(date)!));
  const early = request.dates.filter((date) => date < begun.planting);
  if (request.at < begun.planting || early.length > 0) {
    return refused([refusalAt('value-missing', request.climateCsv, `The climate begins on ${begun.planting}: there is nothing to forecast from before that day.`, early[0] ?? request.at)]);
  }
  const climate = joinClimate(measured, outlook, dayNumberOf(begun.planting)! * 24 + NOON_H, (atDay + 1) * 24, lastDay * 24 + NOON_H);
  if (!climate.ok) return climate;
  const forecast = forecastLot({
    crop: begun.crop, climate: climate.value, ...lot, planting: begun.planting, at: request.at, reportFrom: begun.planting,
    horizonDays: lastDay - atDay, seed: request.seed ?? SEED, members: request.members ?? MEMBERS,
  });
  if (!forecast.ok) return forecast;
  const byDate = new Map(forecast.value.dates.map((day) => [day.date, day]));
  const dates = request.dates.map((wanted) => {
    const { date, dryG, freshG, readyShare, plant, saleableShare } = byDate.get(wanted)!;
    return { date, dryG, freshG, readyShare, plant, saleableShare };
  });
  return accepted({ dates, alarms: forecast.value.alarms, basis: forecast.value.basis }, [...begun.warnings, ...climate.warnings, ...forecast.warnings]);
}

/** Young plants grow by about this share of their mass a day where nothing is known of their climate, with this spread (own choice). */
const UNSEEN_GROWTH = { perDay: 0.15, logSdPerDay: 0.1 };

/** Where the climate record begins after planting, the lot begins with it, and less is known of its plants. */
function beginLot(request: ForecastRequest, measured: ClimateTable): { planting: string; crop: CropGrowth; warnings: Refusal[] } {
  const planted = dayNumberOf(request.planting)!;
  const first = measured.hours.size === 0 ? planted : Math.ceil((Math.min(...measured.hours.keys()) - NOON_H) / 24);
  const unseen = first - planted;
  if (unseen <= 0) return { planting: request.planting, crop: request.crop, warnings: [] };
  const crop = {
    ...request.crop, seedlingDryG: request.crop.seedlingDryG * Math.exp(UNSEEN_GROWTH.perDay * unseen),
    seedlingLogSd: Math.min(2, Math.hypot(request.crop.seedlingLogSd, UNSEEN_GROWTH.logSdPerDay * unseen)),
  };
  const message = `The climate begins ${unseen} days after planting; the lot is begun there with a guess at its plants.`;
  return { planting: dateOf(first), crop, warnings: [{ ...refusalAt('value-missing', request.climateCsv, message, unseen), severity: 'warning' }] };
}
