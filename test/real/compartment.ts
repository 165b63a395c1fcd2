/**
 * A measured lettuce compartment as this project's files. Source: third Autonomous Greenhouse Challenge, first crop of
 * 2022 (MIT licence): 5-minute climate, plants per m2 by day, weekly destructive samples, final harvest of 72 heads.
 */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const shared = fileURLToPath(new URL('../../../shared/data/', import.meta.url));
const folder = `${shared}lettuce-2022/a/`;
const weather = `${shared}weather/USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw`;

export const compartmentIsHere = existsSync(folder) && existsSync(weather);

/** Rows of a comma table as records by column name. */
function table(path: string): Record<string, string>[] {
  const [head = '', ...lines] = readFileSync(path, 'utf8').replace(/^\uFEFF/, '').trimEnd().split(/\r?\n/);
  const names = head.split(',');
  return lines.map((line) => { const cells = line.split(','); return Object.fromEntries(names.map((name, i) => [name, cells[i] ?? ''])); });
}

export interface Compartment {
  readonly epw: string;
  readonly spacing: readonly { readonly from: string; readonly until: string; readonly plantsPerM2: number }[];
  readonly samples: readonly { readonly date: string; readonly plant: number; readonly freshG: number; readonly dryG: number | undefined }[];
  readonly harvest: { readonly date: string; readonly meanFreshG: number; readonly meanDryG: number; readonly heads: number };
  /** Hourly means; `hour` is the hour's end as local YYYY-MM-DDTHH:00. */
  readonly climate: readonly { readonly endDate: string; readonly endHour: number; readonly airC?: number; readonly rhPct?: number; readonly co2Ppm?: number; readonly ppfdUmolM2S?: number }[];
}

export function readCompartment(): Compartment {
  const harvest = table(`${folder}harvest.csv`);
  return {
    epw: readFileSync(weather, 'utf8'),
    spacing: readSpacing(),
    samples: table(`${folder}samples.csv`).map((row) => ({ date: row.date!, plant: Number(row.plant), freshG: Number(row.freshG), dryG: row.dryG === '' ? undefined : Number(row.dryG) })),
    harvest: { date: harvest[0]!.date!, meanFreshG: mean(harvest, 'freshG'), meanDryG: mean(harvest, 'dryG'), heads: harvest.length },
    climate: readClimate(),
  };
}

function readSpacing(): Compartment['spacing'] {
  const days = table(`${folder}density.csv`).map((row) => ({ date: row.date!, plantsPerM2: Number(row.plantsPerM2) }));
  const last = days.at(-1)!.date;
  const changes = days.filter((day, i) => i === 0 || day.plantsPerM2 !== days[i - 1]!.plantsPerM2);
  return changes.map((change, i) => ({ from: change.date, until: changes[i + 1]?.date ?? last, plantsPerM2: change.plantsPerM2 }));
}

const QUANTITIES = { airC: 'airC', rhPct: 'rhPct', co2Ppm: 'co2Ppm', parUmolM2S: 'ppfdUmolM2S' } as const;

function readClimate(): Compartment['climate'] {
  const hours = new Map<string, Record<string, number[]>>();
  for (const row of table(`${folder}climate.csv`)) {
    const sums = hours.get(row.time!.slice(0, 13)) ?? {};
    hours.set(row.time!.slice(0, 13), sums);
    for (const [column, name] of Object.entries(QUANTITIES)) if (row[column] !== '') (sums[name] ??= []).push(Number(row[column]));
  }
  return [...hours].map(([hour, values]) => ({
    endDate: hour.slice(0, 10), endHour: Number(hour.slice(11, 13)) + 1,
    ...Object.fromEntries(Object.entries(values).map(([name, list]) => [name, list.reduce((sum, value) => sum + value, 0) / list.length])),
  }));
}

const mean = (rows: readonly Record<string, string>[], column: string) => {
  const values = rows.filter((row) => row[column] !== '').map((row) => Number(row[column]));
  return values.reduce((sum, value) => sum + value, 0) / values.length;
};
