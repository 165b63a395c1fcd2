/** Published climate cases of the shared reference data, and a meter that says which of them were checked. */
import { existsSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect } from 'vitest';

type Numbers = number | readonly Numbers[] | { readonly [key: string]: Numbers };

export interface ClimateCase {
  readonly id: string;
  readonly what: string;
  readonly in: Readonly<Record<string, number>>;
  readonly expect: Readonly<Record<string, Numbers>>;
  readonly tol: Readonly<Record<string, Numbers>>;
  readonly source: string;
}

const shared = (path: string): string => fileURLToPath(new URL(`../../shared/data/${path}`, import.meta.url));

/** Full path of a shared file, or undefined on a machine that does not have it. */
export const sharedFile = (path: string): string | undefined => (existsSync(shared(path)) ? shared(path) : undefined);

const casesFile = sharedFile('climate-cases.json');

/** All published cases by id; undefined where the shared data are absent. */
export const climateCases: ReadonlyMap<string, ClimateCase> | undefined = casesFile === undefined
  ? undefined
  : new Map((JSON.parse(readFileSync(casesFile, 'utf8')) as { cases: ClimateCase[] }).cases.map((one) => [one.id, one]));

/** Array-valued inputs of a case ("in" is typed as plain numbers because most are). */
export const list = (value: unknown): readonly number[] => value as readonly number[];

/** Looks a case up, compares numbers with its own tolerance and counts what was compared. */
export class CaseMeter {
  readonly checked = new Map<string, number>();

  case(id: string): ClimateCase {
    const found = climateCases?.get(id);
    if (found === undefined) throw new Error(`no published case ${id}`);
    return found;
  }

  /** Compares computed values with the case's, key by key; lists entry by entry. `tolerance` replaces the case's own. */
  compare(id: string, computed: Readonly<Record<string, number | readonly number[]>>, tolerance?: number): void {
    const one = this.case(id);
    for (const [key, value] of Object.entries(computed)) {
      list([value].flat()).forEach((number, index) => {
        const expected = list([one.expect[key]].flat())[index];
        const allowed = tolerance ?? toleranceOf(one, key, index, expected ?? NaN);
        expect(Math.abs(number - (expected ?? NaN)), `${id} ${key}[${index}]: computed ${number}, published ${expected}`).toBeLessThanOrEqual(allowed);
        this.checked.set(id, (this.checked.get(id) ?? 0) + 1);
      });
    }
  }

  report(suite: string, source: string): void {
    const numbers = [...this.checked.values()].reduce((sum, count) => sum + count, 0);
    console.log(`${suite}: ${this.checked.size} published cases, ${numbers} numbers agree (${source}): ${[...this.checked.keys()].join(' ')}`);
  }
}

function toleranceOf(one: ClimateCase, key: string, index: number, expected: number): number {
  const own = one.tol[key] ?? (one.tol['rel'] === undefined ? undefined : Number(one.tol['rel']) * Math.abs(expected));
  const value = Array.isArray(own) ? list(own)[index] : own;
  if (typeof value !== 'number') throw new Error(`case ${one.id} states no tolerance for ${key}`);
  return value;
}
