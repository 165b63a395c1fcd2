/**
 * Reads an EPW weather file (EnergyPlus weather format).
 * Source: US Department of Energy, EnergyPlus Auxiliary Programs, "EnergyPlus Weather File (EPW) Data Dictionary".
 *
 * Clock: hour 1 is 00:00 to 01:00 local standard time. Radiation is the sum over that hour, so its sun stands half an
 * hour before the stamp; temperature, humidity, pressure and wind are values at the stamp.
 */
import type { Outcome } from '../refusal.ts';
import type { Field, NumberRange } from './filePlaces.ts';
import { FileRefusals, splitFields, splitLines } from './filePlaces.ts';
import { HOUR_MS } from './hourGrid.ts';
import type { WeatherColumn, WeatherPlace, WeatherQuantity, WeatherSeries } from './types.ts';
import { ColumnBuilder } from './weatherSeries.ts';

interface EpwField extends NumberRange {
  readonly quantity: WeatherQuantity;
  /** Field number in the data row, counted from 1. */
  readonly field: number;
  /** This value and any above means missing. */
  readonly missingFrom: number;
}

/** The fields that are read; the dictionary's missing markers; ranges of the dictionary, wider where real files go beyond. */
export const EPW_FIELDS: readonly EpwField[] = [
  { quantity: 'airC', field: 7, missingFrom: 99.9, least: -90, most: 70, unit: 'Cel' },
  { quantity: 'dewPointC', field: 8, missingFrom: 99.9, least: -90, most: 70, unit: 'Cel' },
  { quantity: 'rhPct', field: 9, missingFrom: 999, least: 0, most: 110, unit: '%' },
  { quantity: 'pressurePa', field: 10, missingFrom: 999_999, least: 31_000, most: 120_000, unit: 'Pa' },
  { quantity: 'skyIrWM2', field: 13, missingFrom: 9999, least: 0, most: 1000, unit: 'W/m2' },
  { quantity: 'globalWM2', field: 14, missingFrom: 9999, least: 0, most: 1500, unit: 'W/m2' },
  { quantity: 'directNormalWM2', field: 15, missingFrom: 9999, least: 0, most: 1500, unit: 'W/m2' },
  { quantity: 'diffuseWM2', field: 16, missingFrom: 9999, least: 0, most: 1500, unit: 'W/m2' },
  { quantity: 'windMS', field: 22, missingFrom: 999, least: 0, most: 90, unit: 'm/s' },
];

const HEADER_LINES = 8;
const LEAST_FIELDS = 22;
const HEADER_WORDS = [
  'LOCATION', 'DESIGN CONDITIONS', 'TYPICAL/EXTREME PERIODS', 'GROUND TEMPERATURES', 'HOLIDAYS/DAYLIGHT SAVING', 'COMMENTS 1', 'COMMENTS 2', 'DATA PERIODS',
] as const;
const YEAR_RANGE = { least: 1800, most: 2200, unit: 'a' };
/** A typical year has no year of its own; this one has no 29 February and serves as its calendar. */
const CALENDAR_YEAR = 2001;
const LEAP_CALENDAR_YEAR = 2004;

/** LOCATION: city, region, country, source, station, latitude, longitude, zone, elevation. */
function readPlace(line: string, wrong: FileRefusals): WeatherPlace {
  const fields = splitFields(line);
  const at = (index: number): Field => fields[index] ?? { text: '', column: line.length + 1 };
  const number = (index: number, name: string, range: NumberRange): number => wrong.number(at(index), 1, name, range) ?? 0;
  return {
    name: [1, 2, 3].map((index) => at(index).text).filter((word) => word !== '' && word !== '-').join(', '),
    latitudeDeg: number(6, 'latitude', { least: -90, most: 90, unit: 'deg' }),
    longitudeDeg: number(7, 'longitude (east positive)', { least: -180, most: 180, unit: 'deg' }),
    utcOffsetH: number(8, 'offset from UTC', { least: -12, most: 14, unit: 'h' }),
    elevationM: number(9, 'elevation', { least: -500, most: 9000, unit: 'm' }),
  };
}

function checkHeader(lines: readonly string[], wrong: FileRefusals): void {
  HEADER_WORDS.forEach((word, index) => {
    const found = (lines[index] ?? '').split(',')[0]?.trim() ?? '';
    if (!found.toUpperCase().startsWith(word)) {
      wrong.refuse('syntax', index + 1, 1, `Line ${index + 1} of an EPW file begins with ${word}.`, { value: found.slice(0, 40), limit: word });
    }
  });
  const periods = splitFields(lines[HEADER_LINES - 1] ?? '');
  for (const [index, name] of [[1, 'one data period'], [2, 'one record an hour']] as const) {
    const field = periods[index] ?? { text: '', column: 1 };
    if (field.text !== '1') wrong.refuse('value-not-allowed', HEADER_LINES, field.column, `Only files with ${name} are read.`, { value: field.text, limit: 1 });
  }
}

interface Stamp { readonly year: number; readonly month: number; readonly day: number; readonly hour: number }

const STAMP_FIELDS = [
  ['year', YEAR_RANGE], ['month', { least: 1, most: 12, unit: 'mo' }], ['day', { least: 1, most: 31, unit: 'd' }], ['hour', { least: 1, most: 24, unit: 'h' }],
] as const;

function readStamp(fields: readonly Field[], line: number, wrong: FileRefusals): Stamp | undefined {
  const [year, month, day, hour] = STAMP_FIELDS.map(([name, range], index) => wrong.number(fields[index] ?? { text: '', column: 1 }, line, name, range));
  return year === undefined || month === undefined || day === undefined || hour === undefined ? undefined : { year, month, day, hour };
}

/** Hours from the start of year 1 of a calendar to the start of the stamped hour. */
const calendarHour = (stamp: Stamp, year: number): number => Date.UTC(year, stamp.month - 1, stamp.day) / HOUR_MS + stamp.hour - 1;

interface Rows { readonly stamps: readonly Stamp[]; readonly columns: Partial<Record<WeatherQuantity, WeatherColumn>> }

function readRow(fields: readonly Field[], line: number, hour: number, builders: ReadonlyMap<WeatherQuantity, ColumnBuilder>, wrong: FileRefusals): void {
  for (const spec of EPW_FIELDS) {
    const field = fields[spec.field - 1] as Field;
    const builder = builders.get(spec.quantity) as ColumnBuilder;
    if (field.text === '' || Number(field.text) >= spec.missingFrom) {
      builder.miss(hour, `${wrong.place(line, field.column)} marks ${spec.quantity} as missing (${field.text || 'empty'})`);
      continue;
    }
    const value = wrong.number(field, line, `field ${spec.field} (${spec.quantity})`, spec);
    if (value !== undefined) builder.set(hour, spec.quantity === 'rhPct' ? Math.min(100, value) : value);
  }
}

function readRows(lines: readonly string[], wrong: FileRefusals): Rows {
  const builders = new Map(EPW_FIELDS.map((spec) => [spec.quantity, new ColumnBuilder(lines.length - HEADER_LINES)]));
  const stamps: Stamp[] = [];
  for (let index = HEADER_LINES; index < lines.length; index += 1) {
    const fields = splitFields(lines[index] as string);
    if (fields.length < LEAST_FIELDS) {
      wrong.refuse('syntax', index + 1, 1, `A data row has 35 fields, of which at least ${LEAST_FIELDS} are needed.`, { value: fields.length, limit: LEAST_FIELDS });
      continue;
    }
    const stamp = readStamp(fields, index + 1, wrong);
    if (stamp !== undefined) stamps.push(stamp);
    readRow(fields, index + 1, index - HEADER_LINES, builders, wrong);
  }
  return { stamps, columns: Object.fromEntries([...builders].map(([quantity, builder]) => [quantity, builder.build()])) };
}

/** Refuses the first row that does not follow the one before by an hour, in the given calendar. */
function checkSequence(stamps: readonly Stamp[], yearOf: (stamp: Stamp) => number, wrong: FileRefusals): void {
  for (let index = 0; index < stamps.length; index += 1) {
    const stamp = stamps[index] as Stamp;
    const year = yearOf(stamp);
    if (new Date(Date.UTC(year, stamp.month - 1, stamp.day)).getUTCDate() !== stamp.day) {
      wrong.refuse('value-out-of-range', HEADER_LINES + index + 1, 1, `There is no day ${stamp.day} in month ${stamp.month}.`, { value: stamp.day });
      return;
    }
    if (index === 0 || calendarHour(stamp, year) === calendarHour(stamps[0] as Stamp, yearOf(stamps[0] as Stamp)) + index) continue;
    wrong.refuse('inconsistent', HEADER_LINES + index + 1, 1, 'Each row should follow the row before by one hour; here hours are missing, doubled or out of order.',
      { value: `month ${stamp.month}, day ${stamp.day}, hour ${stamp.hour}` });
    return;
  }
}

/** Whether the year column runs on like a real history; a typical year jumps between years, or leaves out a 29 February. */
function isHistory(stamps: readonly Stamp[]): boolean {
  const first = stamps[0];
  return first !== undefined && stamps.every((stamp, index) => calendarHour(stamp, stamp.year) === calendarHour(first, first.year) + index);
}

/** The calendar the rows are laid on: their own years for a history, one fixed year for a typical year. */
function layOnCalendar(stamps: readonly Stamp[], wrong: FileRefusals): { kind: WeatherSeries['kind']; firstHour: number } {
  const history = isHistory(stamps);
  const leap = stamps.some((stamp) => stamp.month === 2 && stamp.day === 29);
  const yearOf = (stamp: Stamp): number => (history ? stamp.year : leap ? LEAP_CALENDAR_YEAR : CALENDAR_YEAR);
  checkSequence(stamps, yearOf, wrong);
  const whole = leap ? 8784 : 8760;
  if (!history && stamps.length !== whole) {
    wrong.refuse('inconsistent', HEADER_LINES + 1, 1, `A typical year has ${whole} rows.`, { value: stamps.length, limit: whole });
  }
  const first = stamps[0] as Stamp;
  return { kind: history ? 'dated' : 'typical-year', firstHour: calendarHour(first, yearOf(first)) };
}

/**
 * Reads the text of an EPW file.
 * @returns the series with missing values marked absent; refused with line and column: broken headers, rows out of
 * order, fields that are not numbers or outside what is physically possible, more than one period or record an hour.
 */
export function readEpw(text: string, fileName: string): Outcome<WeatherSeries> {
  const wrong = new FileRefusals(fileName);
  const lines = splitLines(text);
  while (lines.length > 0 && lines.at(-1)?.trim() === '') lines.pop();
  checkHeader(lines, wrong);
  if (wrong.any) return wrong.refused();
  const place = readPlace(lines[0] as string, wrong);
  const { stamps, columns } = readRows(lines, wrong);
  if (stamps.length === 0) wrong.refuse('value-missing', HEADER_LINES + 1, 1, 'The file has no data rows.');
  if (wrong.any) return wrong.refused();
  const { kind, firstHour } = layOnCalendar(stamps, wrong);
  if (wrong.any) return wrong.refused();
  return wrong.accepted({
    fileName, place, kind, airValues: 'at-hour-end', hours: stamps.length,
    startUtcMs: (firstHour - place.utcOffsetH) * HOUR_MS, utcOffsetH: place.utcOffsetH, columns,
  });
}
