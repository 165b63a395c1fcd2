/** Inside climate from a table of any time step (time,airC,rhPct,co2Ppm,parUmolM2S) to hours without a gap. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { dateOf, dayNumberOf } from './calendar.ts';
import { readCsvTable, readDecimal, refusalAt } from './csvTable.ts';
import type { HourlyClimate } from './growthModel.ts';

/** Mean of each hour by hours since 1970-01-01T00:00 of the table's own clock. */
export interface ClimateTable {
  readonly fileName: string;
  readonly hours: ReadonlyMap<number, HourMeans>;
}
type Quantity = 'airC' | 'co2Ppm' | 'ppfdUmolM2S';
type HourMeans = Readonly<Partial<Record<Quantity, number>>>;

const COLUMNS: readonly { readonly column: string; readonly quantity: Quantity; readonly least: number; readonly most: number }[] = [
  { column: 'airC', quantity: 'airC', least: -40, most: 60 },
  { column: 'co2Ppm', quantity: 'co2Ppm', least: 100, most: 10_000 },
  { column: 'parUmolM2S', quantity: 'ppfdUmolM2S', least: -5, most: 3000 },
];
const TIME = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2})(?::\d{2}(?:\.\d+)?)?Z?$/;

/** Reads the table. Empty fields are absent values; light between -5 and 0 (a sensor's zero) counts as 0. At most 40 wrong places are told. */
export function readClimateTable(text: string, fileName: string): Outcome<ClimateTable> {
  const { rows, refusals } = readCsvTable(text, fileName, ['time', ...COLUMNS.map((one) => one.column)]);
  const sums = new Map<number, Record<Quantity, { sum: number; count: number }>>();
  for (const row of rows) {
    const hour = hourOfTime(row.fields['time']!);
    if (hour === undefined) refusals.push(refusalAt('value-not-allowed', `${fileName}:${row.line}:1`, 'time should be YYYY-MM-DDTHH:MM.', row.fields['time']));
    for (const { column, quantity, least, most } of COLUMNS) {
      const { value, refusal } = readDecimal(row, column, fileName, least, most);
      if (refusal !== undefined) refusals.push(refusal);
      if (hour === undefined || value === undefined) continue;
      const sum = sums.get(hour) ?? { airC: { sum: 0, count: 0 }, co2Ppm: { sum: 0, count: 0 }, ppfdUmolM2S: { sum: 0, count: 0 } };
      sum[quantity].sum += quantity === 'ppfdUmolM2S' ? Math.max(0, value) : value;
      sum[quantity].count += 1;
      sums.set(hour, sum);
    }
  }
  if (refusals.length > 0) return refused(refusals.slice(0, 40));
  const hours = new Map([...sums].map(([hour, sum]): [number, HourMeans] => [hour, meansOf(sum)]));
  return accepted({ fileName, hours });
}

function hourOfTime(text: string): number | undefined {
  const parts = TIME.exec(text);
  const day = parts === null ? undefined : dayNumberOf(parts[1]!);
  if (parts === null || day === undefined || Number(parts[2]) > 23 || Number(parts[3]) > 59) return undefined;
  return day * 24 + Number(parts[2]);
}

function meansOf(sums: Record<Quantity, { sum: number; count: number }>): HourMeans {
  return Object.fromEntries(Object.entries(sums).filter(([, { count }]) => count > 0).map(([quantity, { sum, count }]) => [quantity, sum / count]));
}

/** Gaps up to this are bridged by a straight line; longer ones by the same hour of up to three days before, then of up to three days after. */
const BRIDGED_HOURS = 6;
const REPEATED_DAYS = 3;

/**
 * Hours [fromHour, toHour) without a gap: from `measured` before `cutHour`, from `outlook` after it (or where nothing was measured).
 * Refuses what cannot be filled; says in warnings what was.
 */
export function joinClimate(measured: ClimateTable, outlook: ClimateTable, fromHour: number, cutHour: number, toHour: number): Outcome<HourlyClimate> {
  const refusals: Refusal[] = [];
  const warnings: Refusal[] = [];
  const column = (quantity: Quantity): Float64Array => {
    const raw = Float64Array.from({ length: toHour - fromHour }, (_, i) => valueAt(measured, outlook, quantity, fromHour + i, cutHour));
    const filled = fillGaps(raw);
    const wrong = filled.values.findIndex(Number.isNaN);
    const where = `${measured.fileName}${outlook === measured ? '' : `, ${outlook.fileName}`}`;
    if (wrong !== -1) refusals.push(refusalAt('value-missing', where, `There is no ${quantity} at ${clockOf(fromHour + wrong)} nor in the ${REPEATED_DAYS} days before and after, and it is needed until ${clockOf(toHour)}.`));
    else if (filled.count > 0) warnings.push({ ...refusalAt('value-missing', where, `${filled.count} hours without ${quantity} were filled from hours around them or the days before and after.`, filled.count), severity: 'warning' });
    return filled.values;
  };
  const climate = { startUtcHour: fromHour, utcOffsetH: 0, airC: column('airC'), co2Ppm: column('co2Ppm'), ppfdUmolM2S: column('ppfdUmolM2S') };
  return refusals.length > 0 ? refused(refusals) : accepted(climate, warnings);
}

function valueAt(measured: ClimateTable, outlook: ClimateTable, quantity: Quantity, hour: number, cutHour: number): number {
  const own = hour < cutHour ? measured.hours.get(hour)?.[quantity] : undefined;
  return own ?? outlook.hours.get(hour)?.[quantity] ?? Number.NaN;
}

function fillGaps(raw: Float64Array): { values: Float64Array; count: number } {
  const values = Float64Array.from(raw);
  let count = 0;
  for (let i = 0; i < raw.length; i += 1) {
    if (!Number.isNaN(raw[i]!)) continue;
    values[i] = bridge(raw, i) ?? repeatDay(raw, i);
    if (!Number.isNaN(values[i]!)) count += 1;
  }
  return { values, count };
}

function bridge(raw: Float64Array, i: number): number | undefined {
  let before = i - 1;
  let after = i + 1;
  while (before >= 0 && Number.isNaN(raw[before]!)) before -= 1;
  while (after < raw.length && Number.isNaN(raw[after]!)) after += 1;
  if (before < 0 || after >= raw.length || after - before - 1 > BRIDGED_HOURS) return undefined;
  return raw[before]! + (raw[after]! - raw[before]!) * (i - before) / (after - before);
}

function repeatDay(raw: Float64Array, i: number): number {
  for (const way of [-24, 24]) {
    for (let days = 1; days <= REPEATED_DAYS; days += 1) {
      const value = raw[i + way * days];
      if (value !== undefined && !Number.isNaN(value)) return value;
    }
  }
  return Number.NaN;
}

const clockOf = (hour: number) => `${dateOf(Math.floor(hour / 24))}T${String(hour % 24).padStart(2, '0')}:00`;
