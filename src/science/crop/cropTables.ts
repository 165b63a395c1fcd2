/** The tables that describe a lot: planting density by day, and plants cut and weighed. */
import type { Outcome, Refusal } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { dayNumberOf } from './calendar.ts';
import type { CsvRow } from './csvTable.ts';
import { readCsvTable, readDecimal, refusalAt } from './csvTable.ts';
import type { DensityStep, PlantSample } from './lotForecast.ts';

/** date,plantsPerM2: the density from each date on. */
export function readDensities(text: string, fileName: string): Outcome<DensityStep[]> {
  const { rows, refusals } = readCsvTable(text, fileName, ['date', 'plantsPerM2']);
  const steps = rows.flatMap((row) => {
    const date = readDate(row, fileName, refusals);
    const plantsPerM2 = readNumber(row, 'plantsPerM2', fileName, 0.1, 5000, refusals);
    if (plantsPerM2 === undefined) refuseEmpty(row, 'plantsPerM2', fileName, refusals);
    return date === undefined || plantsPerM2 === undefined ? [] : [{ date, plantsPerM2 }];
  });
  if (steps.length === 0 && refusals.length === 0) refusals.push(refusalAt('value-missing', `${fileName}:1:1`, 'The table has no rows: at least one planting density is needed.'));
  return refusals.length > 0 ? refused(refusals) : accepted(steps);
}

/** date,plant,freshG,dryG: one row a plant; a plant not dried has an empty dryG. */
export function readSamples(text: string, fileName: string): Outcome<PlantSample[]> {
  const { rows, refusals } = readCsvTable(text, fileName, ['date', 'plant', 'freshG', 'dryG']);
  const byDate = new Map<string, { freshG?: number; dryG?: number }[]>();
  for (const row of rows) {
    const date = readDate(row, fileName, refusals);
    const freshG = readNumber(row, 'freshG', fileName, 1e-3, 1e5, refusals);
    const dryG = readNumber(row, 'dryG', fileName, 1e-4, 1e5, refusals);
    if (freshG !== undefined && dryG !== undefined && dryG >= freshG) {
      refusals.push(refusalAt('inconsistent', `${fileName}:${row.line}:1`, 'A plant cannot weigh more dry than fresh.', `${dryG} >= ${freshG}`));
    }
    if (date === undefined || (freshG === undefined && dryG === undefined)) continue;
    const plants = byDate.get(date) ?? [];
    plants.push({ ...(freshG === undefined ? {} : { freshG }), ...(dryG === undefined ? {} : { dryG }) });
    byDate.set(date, plants);
  }
  if (refusals.length > 0) return refused(refusals);
  return accepted([...byDate].map(([date, plants]) => ({ date, plants })).sort((a, b) => (a.date < b.date ? -1 : 1)));
}

function readDate(row: CsvRow, fileName: string, refusals: Refusal[]): string | undefined {
  const date = row.fields['date']!;
  if (dayNumberOf(date) !== undefined) return date;
  refusals.push(refusalAt('value-not-allowed', `${fileName}:${row.line}:1`, 'date should be a calendar date YYYY-MM-DD.', date));
  return undefined;
}

function readNumber(row: CsvRow, column: string, fileName: string, least: number, most: number, refusals: Refusal[]): number | undefined {
  const { value, refusal } = readDecimal(row, column, fileName, least, most);
  if (refusal !== undefined) refusals.push(refusal);
  return value;
}

function refuseEmpty(row: CsvRow, column: string, fileName: string, refusals: Refusal[]): void {
  if (row.fields[column] === '') refusals.push(refusalAt('value-missing', `${fileName}:${row.line}:1`, `${column} is empty.`));
}
