/**
 * Reads weather.csv, our own form: a line of column names, then rows in time order.
 *
 *     time,airC,rhPct,globalWm2,windMS
 *     2026-03-01T00:00,6.4,91,0,3.2
 *
 * `time` begins the interval the row stands for, as local standard time, or with Z or an offset. Rows may be closer than
 * an hour: they are averaged. Lines that begin with # are comments. An empty cell is a missing value.
 */
import type { Outcome } from '../refusal.ts';
import type { Field, NumberRange } from './filePlaces.ts';
import { FileRefusals, splitFields, splitLines } from './filePlaces.ts';
import { HOUR_MS } from './hourGrid.ts';
import type { WeatherColumn, WeatherPlace, WeatherQuantity, WeatherSeries } from './types.ts';
import { ColumnBuilder } from './weatherSeries.ts';

interface CsvColumn extends NumberRange { readonly quantity: WeatherQuantity; readonly required: boolean }

const WEATHER_CSV_COLUMNS: Readonly<Record<string, CsvColumn>> = {
  airC: { quantity: 'airC', required: true, least: -60, most: 60, unit: 'Cel' },
  rhPct: { quantity: 'rhPct', required: true, least: 0, most: 100, unit: '%' },
  globalWm2: { quantity: 'globalWM2', required: true, least: 0, most: 1500, unit: 'W/m2' },
  windMS: { quantity: 'windMS', required: true, least: 0, most: 60, unit: 'm/s' },
  diffuseWm2: { quantity: 'diffuseWM2', required: false, least: 0, most: 1500, unit: 'W/m2' },
  skyIrWm2: { quantity: 'skyIrWM2', required: false, least: 0, most: 1000, unit: 'W/m2' },
  pressurePa: { quantity: 'pressurePa', required: false, least: 31_000, most: 120_000, unit: 'Pa' },
  co2Ppm: { quantity: 'co2Ppm', required: false, least: 200, most: 2000, unit: '[ppm]' },
};

/** Longest file: ten years, so that one mistyped year cannot ask for a century of hours. */
const MOST_HOURS = 87_672;

const TIME = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):(\d\d)(?::(\d\d)(?:\.\d+)?)?(Z|[+-]\d\d:?\d\d)?$/;

/** Offset from UTC in ms of a zone suffix; `local` where there is none. */
function offsetMs(zone: string | undefined, localH: number): number {
  if (zone === undefined) return localH * HOUR_MS;
  if (zone === 'Z') return 0;
  const digits = zone.replace(':', '');
  const minutes = Number(digits.slice(1, 3)) * 60 + Number(digits.slice(3, 5));
  return (digits.startsWith('-') ? -minutes : minutes) * 60_000;
}

/** Instant of a time stamp, or undefined where it is not one that exists. Without zone it is local standard time. */
export function parseStampMs(text: string, localOffsetH: number): number | undefined {
  const found = TIME.exec(text);
  if (found === null) return undefined;
  const [year, month, day, hour, minute, second] = found.slice(1, 7).map((part) => Number(part ?? 0)) as [number, number, number, number, number, number];
  const ms = Date.UTC(year, month - 1, day, hour, minute, second);
  const real = new Date(ms).getUTCDate() === day && month >= 1 && month <= 12 && hour < 24 && minute < 60 && second < 60;
  return real ? ms - offsetMs(found[7], localOffsetH) : undefined;
}

interface Header { readonly columns: readonly (CsvColumn & { readonly name: string; readonly index: number })[]; readonly timeIndex: number }

function readHeader(fields: readonly Field[], line: number, wrong: FileRefusals): Header {
  const columns: (CsvColumn & { name: string; index: number })[] = [];
  const names = fields.map((field) => field.text);
  fields.forEach((field, index) => {
    const known = Object.hasOwn(WEATHER_CSV_COLUMNS, field.text) ? WEATHER_CSV_COLUMNS[field.text] : undefined;
    if (names.indexOf(field.text) !== index) wrong.refuse('duplicate', line, field.column, `Column ${field.text} stands here twice.`, { value: field.text });
    else if (known !== undefined) columns.push({ ...known, name: field.text, index });
    else if (field.text !== 'time') {
      wrong.refuse('key-unknown', line, field.column, `Column "${field.text}" is not known here.`, { value: field.text, limit: ['time', ...Object.keys(WEATHER_CSV_COLUMNS)] });
    }
  });
  const required = ['time', ...Object.entries(WEATHER_CSV_COLUMNS).filter(([, spec]) => spec.required).map(([name]) => name)];
  for (const name of required.filter((one) => !names.includes(one))) wrong.refuse('value-missing', line, 1, `Column ${name} is missing.`, { limit: name });
  return { columns, timeIndex: names.indexOf('time') };
}

interface Row { readonly utcMs: number; readonly line: number; readonly fields: readonly Field[] }

/** Rows with a readable time that comes after the row before. */
function readRows(lines: readonly string[], header: Header, width: number, offsetH: number, wrong: FileRefusals): Row[] {
  const rows: Row[] = [];
  lines.forEach((text, index) => {
    if (index === 0 || text.trim() === '' || text.startsWith('#')) return;
    const line = index + 1;
    const fields = splitFields(text);
    const time = fields[header.timeIndex];
    if (fields.length !== width || time === undefined) {
      wrong.refuse('syntax', line, 1, `A row should have ${width} fields, as the line of column names.`, { value: fields.length, limit: width });
      return;
    }
    const utcMs = parseStampMs(time.text, offsetH);
    const before = rows.at(-1);
    if (utcMs === undefined) wrong.refuse('value-not-allowed', line, time.column, 'time should look like 2026-03-01T14:00.', { value: time.text });
    else if (before !== undefined && utcMs <= before.utcMs) {
      wrong.refuse(utcMs === before.utcMs ? 'duplicate' : 'inconsistent', line, time.column,
        'Times should rise. Where a clock was put back for winter, write local standard time all year.', { value: time.text });
    } else rows.push({ utcMs, line, fields });
  });
  return rows;
}

/** Means of the rows that begin within each hour; an hour without any value is absent with the reason. */
function averageByHour(rows: readonly Row[], hours: number, startUtcMs: number, column: Header['columns'][number], wrong: FileRefusals): WeatherColumn {
  const sums = new Float64Array(hours);
  const counts = new Uint32Array(hours);
  for (const row of rows) {
    const field = row.fields[column.index] as Field;
    const value = field.text === '' ? undefined : wrong.number(field, row.line, column.name, column);
    const hour = Math.floor((row.utcMs - startUtcMs) / HOUR_MS);
    if (value === undefined) continue;
    sums[hour] = (sums[hour] as number) + value;
    counts[hour] = (counts[hour] as number) + 1;
  }
  const builder = new ColumnBuilder(hours);
  for (let hour = 0; hour < hours; hour += 1) {
    const count = counts[hour] as number;
    if (count > 0) builder.set(hour, (sums[hour] as number) / count);
    else builder.miss(hour, `${wrong.fileName} has no ${column.name} between ${new Date(startUtcMs + hour * HOUR_MS).toISOString()} and an hour later`);
  }
  return builder.build();
}

/**
 * Reads the text of a weather.csv whose place the greenhouse description states.
 * @returns hourly means with missing hours marked absent; refused with line and column: unknown, doubled or missing
 * columns, times that do not exist or do not rise, cells that are not numbers or outside what is possible.
 */
export function readWeatherCsv(text: string, fileName: string, place: WeatherPlace): Outcome<WeatherSeries> {
  const wrong = new FileRefusals(fileName);
  const lines = splitLines(text);
  const headLine = lines.findIndex((line) => line.trim() !== '' && !line.startsWith('#'));
  if (headLine < 0) {
    wrong.refuse('value-missing', 1, 1, 'The file is empty.');
    return wrong.refused();
  }
  const head = splitFields(lines[headLine] as string);
  const header = readHeader(head, headLine + 1, wrong);
  if (wrong.any) return wrong.refused();
  const body = lines.map((line, index) => (index <= headLine ? '' : line));
  const rows = readRows(body, header, head.length, place.utcOffsetH, wrong);
  const first = rows[0];
  if (first === undefined) wrong.refuse('value-missing', headLine + 2, 1, 'The file has no rows that can be read.');
  if (first === undefined || wrong.any) return wrong.refused();
  // Hours begin on the local clock's full hour, which zones of half an hour shift against UTC.
  const shiftMs = place.utcOffsetH * HOUR_MS;
  const startUtcMs = Math.floor((first.utcMs + shiftMs) / HOUR_MS) * HOUR_MS - shiftMs;
  const hours = Math.floor(((rows.at(-1) as Row).utcMs - startUtcMs) / HOUR_MS) + 1;
  if (hours > MOST_HOURS) {
    wrong.refuse('value-out-of-range', (rows.at(-1) as Row).line, 1, 'The rows should span at most ten years.', { value: hours, limit: MOST_HOURS, unit: 'h' });
    return wrong.refused();
  }
  const columns = Object.fromEntries(header.columns.map((column) => [column.quantity, averageByHour(rows, hours, startUtcMs, column, wrong)]));
  if (wrong.any) return wrong.refused();
  return wrong.accepted({ fileName, place, kind: 'dated', airValues: 'hour-mean', hours, startUtcMs, utcOffsetH: place.utcOffsetH, columns });
}
