/** What `watermeadow forecast` is asked, checked by hand: every key, word and date. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { dayNumberOf } from './calendar.ts';
import type { CropGrowth } from './lotForecast.ts';
import { refusalAt } from './csvTable.ts';

export interface ForecastRequest {
  readonly crop: CropGrowth;
  readonly climateCsv: string;
  readonly outlookCsv: string | null;
  readonly plantsPerM2Csv: string;
  readonly planting: string;
  readonly samplesCsv: string;
  readonly at: string;
  readonly dates: readonly string[];
  /** Start of the random numbers; the same seed gives the same forecast. */
  readonly seed?: number;
  readonly members?: number;
}

/** How far ahead a forecast may reach, days. */
const FARTHEST_DAYS = 400;
const FILES = ['climateCsv', 'plantsPerM2Csv', 'samplesCsv'] as const;
const KEYS = ['crop', ...FILES, 'outlookCsv', 'planting', 'at', 'dates', 'readyFreshG', 'seed', 'members'] as const;

export function checkForecastRequest(input: unknown, crops: Readonly<Record<string, CropGrowth>>): Outcome<ForecastRequest> {
  if (typeof input !== 'object' || input === null || Array.isArray(input)) return refused([refusalAt('syntax', '', 'The request should be one JSON object.', input)]);
  const asked = input as Readonly<Record<string, unknown>>;
  const refusals = [
    ...Object.keys(asked).filter((key) => !(KEYS as readonly string[]).includes(key)).map((key) => refusalAt('key-unknown', key, `${key} is not known here; known are ${KEYS.join(', ')}.`)),
    ...FILES.flatMap((key) => (typeof asked[key] === 'string' && asked[key] !== '' ? [] : [refusalAt('value-missing', key, `${key} should name a file.`, asked[key])])),
    ...(asked['outlookCsv'] === null || typeof asked['outlookCsv'] === 'string' ? [] : [refusalAt('value-missing', 'outlookCsv', 'outlookCsv should name a file, or be null.', asked['outlookCsv'])]),
    ...checkCrop(asked['crop'], crops), ...checkDays(asked),
    ...checkOptional(asked, 'readyFreshG', 0.1, 1e5, false), ...checkOptional(asked, 'seed', 0, 2 ** 32 - 1, true), ...checkOptional(asked, 'members', 20, 5000, true),
  ];
  if (refusals.length > 0) return refused(refusals);
  return accepted(requestOf(asked, crops));
}

/** Every value has been checked: this only says so to the compiler. */
function requestOf(asked: Readonly<Record<string, unknown>>, crops: Readonly<Record<string, CropGrowth>>): ForecastRequest {
  const crop = findCrop(asked['crop'] as string, crops)!;
  const readyFreshG = asked['readyFreshG'] as number | undefined;
  return { ...(asked as unknown as ForecastRequest), crop: readyFreshG === undefined ? crop : { ...crop, readyFreshG } };
}

function findCrop(name: string, crops: Readonly<Record<string, CropGrowth>>): CropGrowth | undefined {
  const wanted = name.trim().toLowerCase();
  const key = Object.keys(crops).find((known) => known.toLowerCase() === wanted);
  return key === undefined ? undefined : crops[key];
}

function checkCrop(crop: unknown, crops: Readonly<Record<string, CropGrowth>>): Refusal[] {
  if (typeof crop === 'string' && findCrop(crop, crops) !== undefined) return [];
  const code = typeof crop === 'string' ? 'reference-unknown' : 'value-missing';
  return [{ ...refusalAt(code, 'crop', `crop should be one of ${Object.keys(crops).join(', ')}.`, crop), limit: Object.keys(crops) }];
}

function checkDays(asked: Readonly<Record<string, unknown>>): Refusal[] {
  const planting = checkDate('planting', asked['planting']);
  const at = checkDate('at', asked['at']);
  const dates = asked['dates'];
  if (!Array.isArray(dates) || dates.length === 0) return [...planting, ...at, refusalAt('value-missing', 'dates', 'dates should be a list of at least one date.', dates)];
  const wrong = dates.flatMap((date: unknown, i) => checkDate(`dates.${i}`, date));
  if (planting.length + at.length + wrong.length > 0) return [...planting, ...at, ...wrong];
  return checkOrder(asked['planting'] as string, asked['at'] as string, dates as string[]);
}

function checkDate(path: string, value: unknown): Refusal[] {
  if (typeof value === 'string' && dayNumberOf(value) !== undefined) return [];
  return [refusalAt(value === undefined ? 'value-missing' : 'value-not-allowed', path, `${path} should be a calendar date YYYY-MM-DD.`, value)];
}

function checkOrder(planting: string, at: string, dates: readonly string[]): Refusal[] {
  return [
    ...(at < planting ? [refusalAt('inconsistent', 'at', `at lies before planting (${planting}).`, at)] : []),
    ...dates.flatMap((date, i) => (date < planting ? [refusalAt('inconsistent', `dates.${i}`, `This date lies before planting (${planting}).`, date)] : [])),
    ...dates.flatMap((date, i) => (dayNumberOf(date)! - dayNumberOf(at)! > FARTHEST_DAYS
      ? [refusalAt('value-out-of-range', `dates.${i}`, `A forecast reaches at most ${FARTHEST_DAYS} days ahead.`, date)] : [])),
  ];
}

function checkOptional(asked: Readonly<Record<string, unknown>>, key: string, least: number, most: number, whole: boolean): Refusal[] {
  const value = asked[key];
  if (value === undefined || (typeof value === 'number' && value >= least && value <= most && (!whole || Number.isInteger(value)))) return [];
  return [{ ...refusalAt('value-out-of-range', key, `${key} should be a ${whole ? 'whole ' : ''}number between ${least} and ${most}.`, value), limit: [least, most] }];
}
