import { z } from 'zod';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';
import type { JobShopProblem, ShopJob } from './jobShopProblem.ts';

const LONGEST = 1e9;
const time = z.number().min(0).max(LONGEST);
const shopInput = z.object({
  vehicles: z.number().int().min(0).max(1000),
  locations: z.array(z.string().min(1)).max(2000),
  travelTime: z.array(z.array(time)).optional(),
  startAt: z.string().nullish(),
  jobs: z.array(z.object({
    id: z.string().min(1),
    operations: z.array(z.object({ alternatives: z.array(z.object({ at: z.string(), duration: time })).min(1) })).min(1),
  })).max(20_000),
  buffers: z.record(z.string(), z.number().int().min(0).max(20_000)).nullish(),
});
type ShopInput = z.infer<typeof shopInput>;

const KNOWN = new Set(Object.keys(shopInput.shape));

/**
 * The job shop of a parsed JSON file, or everything that is wrong with it. Times are from 0 to 1e9 in any one unit, whole or
 * not. `travelTime` and `startAt` may be left out where there are no vehicles. `buffers` names the waiting places of a location beside the one at its machine
 * (bufferFloor says how they work); a location that is not named, and the start, has them without limit. They need vehicles. A key that is not known, and a diagonal that is not 0, are not read, with a warning.
 */
export function readJobShop(input: unknown): Outcome<JobShopProblem> {
  const parsed = shopInput.safeParse(input, { reportInput: true });
  if (!parsed.success) return refused(parsed.error.issues.map(toRefusal));
  const shop = parsed.data;
  const refusals = [...repeated('locations', shop.locations), ...repeated('jobs', shop.jobs.map(({ id }) => id)), ...checkPlaces(shop), ...checkMatrix(shop), ...checkBuffers(shop)];
  if (refusals.length > 0) return refused(refusals);
  const { vehicles, locations, jobs, travelTime = [], startAt, buffers } = shop;
  return accepted({ vehicles, locations, travelTime, jobs, startAt: startAt ?? locations[0] ?? '', ...(buffers === undefined || buffers === null || Object.keys(buffers).length === 0 ? {} : { buffers }) }, warn(input, shop));
}

const REMEDIES: Readonly<Record<string, string>> = {
  buffers: 'give the waiting places of each location, as {"M1": 2}, or null where they are without limit',
  vehicles: 'give a whole number of vehicles; 0 for a job shop without moves',
  alternatives: 'give at least one place with its duration',
  operations: 'give at least one operation, or leave the job out',
};

function toRefusal(issue: z.core.$ZodIssue): Refusal {
  const path = issue.path.join('.') || 'file';
  const value = issue.input;
  const missing = issue.code === 'invalid_type' && value === undefined;
  const number = issue.code === 'invalid_type' && issue.expected === 'number';
  const code = missing ? 'value-missing' : number ? 'value-not-a-number' : issue.code === 'invalid_type' ? 'value-not-allowed' : 'value-out-of-range';
  const limit = limitOf(issue);
  const remedy = REMEDIES[String(issue.path.at(-1))] ?? (number || limit !== undefined ? `give ${limit ?? 'a plain number'}` : 'correct it');
  return { code, path, ...(value === undefined || typeof value === 'object' ? {} : { value }), ...(limit === undefined ? {} : { limit }), severity: 'error',
    message: `${path}${missing ? ' is missing' : `: ${issue.message}`}; ${remedy}.` };
}

function limitOf(issue: z.core.$ZodIssue): string | undefined {
  if (issue.code === 'too_small') return `at least ${issue.minimum}`;
  if (issue.code === 'too_big') return `at most ${issue.maximum}`;
  if (issue.code === 'invalid_type' && issue.expected === 'number') return `a number from 0 to ${LONGEST}`;
  return undefined;
}

const repeated = (what: string, ids: readonly string[]): Refusal[] => {
  const seen = new Set<string>();
  return ids.flatMap((id, i): Refusal[] => {
    if (!seen.has(id)) { seen.add(id); return []; }
    return [{ code: 'duplicate', path: `${what}.${i}`, value: id, limit: 'each name once', severity: 'error', message: `${what}.${i}: ${id} is there already; give it another name or remove it.` }];
  });
};

function checkPlaces(shop: ShopInput): Refusal[] {
  const known = new Set(shop.locations);
  const unknown = (path: string, value: string): Refusal[] => (known.has(value) ? [] : [{
    code: 'reference-unknown', path, value, limit: listed(shop.locations), severity: 'error', message: `${path}: ${value} is not one of the locations; add it to them or correct the name.` }]);
  const start = shop.startAt === undefined || shop.startAt === null
    ? (shop.vehicles === 0 ? [] : [{ code: 'value-missing', path: 'startAt', limit: listed(shop.locations), severity: 'error', message: 'startAt is missing; name the location where jobs and vehicles start.' } as const])
    : unknown('startAt', shop.startAt);
  return [...start, ...shop.jobs.flatMap((job, j) => checkJob(job, `jobs.${j}`, unknown))];
}

function checkJob(job: ShopJob, path: string, unknown: (path: string, value: string) => Refusal[]): Refusal[] {
  return job.operations.flatMap(({ alternatives }, o) => alternatives.flatMap(({ at }, a): Refusal[] => {
    const place = `${path}.operations.${o}.alternatives.${a}.at`;
    const isRepeated = alternatives.findIndex((other) => other.at === at) < a;
    return isRepeated ? [{ code: 'duplicate', path: place, value: at, limit: 'each place once', severity: 'error', message: `${place}: ${at} is an alternative already; remove one of the two.` }] : unknown(place, at);
  }));
}

const listed = (names: readonly string[]): string => (names.length > 12 ? `one of ${names.length} locations` : `one of ${names.join(', ')}`);

/** Square, with a row and a column for each location; without vehicles it may be absent or empty. */
function checkMatrix({ vehicles, locations, travelTime }: ShopInput): Refusal[] {
  if (vehicles === 0 && (travelTime === undefined || travelTime.length === 0)) return [];
  if (travelTime === undefined) return [{ code: 'value-missing', path: 'travelTime', limit: `${locations.length} rows`, severity: 'error', message: 'travelTime is missing; give a row and a column for each location.' }];
  const wrong = (path: string, value: number): Refusal => ({ code: 'value-out-of-range', path, value, limit: locations.length, unit: '1', severity: 'error',
    message: `${path} has ${value} entries where there are ${locations.length} locations; give one for each, in their order.` });
  return [...(travelTime.length === locations.length ? [] : [wrong('travelTime', travelTime.length)]),
    ...travelTime.flatMap((row, r) => (row.length === locations.length ? [] : [wrong(`travelTime.${r}`, row.length)]))];
}

function checkBuffers({ vehicles, locations, startAt, buffers }: ShopInput): Refusal[] {
  const names = Object.keys(buffers ?? {});
  if (names.length > 0 && vehicles === 0) return [{ code: 'value-not-allowed', path: 'buffers', limit: 'null without vehicles', severity: 'error', message: 'buffers: finite waiting places are planned with vehicles only; give vehicles, or set it to null.' }];
  return names.flatMap((name): Refusal[] => {
    if (!locations.includes(name)) return [{ code: 'reference-unknown', path: `buffers.${name}`, value: name, limit: listed(locations), severity: 'error', message: `buffers.${name}: ${name} is not one of the locations; correct the name or remove it.` }];
    if (name !== startAt) return [];
    return [{ code: 'value-not-allowed', path: `buffers.${name}`, value: buffers![name], limit: 'no limit', severity: 'error', message: `buffers.${name}: all jobs start there, so its waiting places have no limit; remove it.` }];
  });
}

function warn(input: unknown, { travelTime = [] }: ShopInput): Refusal[] {
  const keys = Object.keys(input as object).filter((key) => !KNOWN.has(key));
  return [
    ...keys.map((key): Refusal => ({ code: 'key-unknown', path: key, severity: 'warning', message: `${key} is not known here and was not read.` })),
    ...travelTime.flatMap((row, r): Refusal[] => (row[r] === 0 ? [] : [{ code: 'value-out-of-range', path: `travelTime.${r}.${r}`, value: row[r], limit: 0, severity: 'warning',
      message: `travelTime.${r}.${r} was not read: a job that stays at its place needs no move.` }])),
  ];
}
