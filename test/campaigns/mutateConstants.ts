/**
 * Changes the numeric constants of a folder one at a time, in memory, runs the tests of that folder that reach the file, and prints the
 * share that is noticed:
 *
 *   npm run mutate -- src/science/chemistry [--sample 150] [--skip 60] [--seed 1] [--small] [--only part-of-a-file-name,another]
 *
 * A constant is a numeric literal other than 0, 1 and 2 (with --small: every one). Whole numbers below 20 become one more, all others grow
 * by 5 %. Noticed is a constant only when a test fails on it: not when a module no longer loads, when time runs out, or when the
 * runner stumbles (those are counted apart). Before and after, the tests that are run must pass unchanged. Constants that cannot change any result
 * stand in equivalentConstants.ts with the reason; those that no test notices count as not noticed, and the share without them is printed
 * beside.
 * Files on disk are not touched. One worker and one process: some 0.5 s a noticed constant, the time of all its tests for another.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { createVitest, type TestModule, type TestSpecification, type Vitest } from 'vitest/node';
import { startRandom } from '../../src/science/seededRandom.ts';
import { reasonOfEquivalence } from './equivalentConstants.ts';
import { numericConstants, type Mutation } from './numericConstants.ts';

const { values, positionals } = parseArgs({ allowPositionals: true, options: {
  sample: { type: 'string' }, skip: { type: 'string', default: '0' }, seed: { type: 'string', default: '1' }, small: { type: 'boolean', default: false }, only: { type: 'string', default: '' } } });
const folder = resolve(positionals[0] ?? 'src/science');
/** No run of unchanged tests comes near this. */
const PATIENCE_MS = 120_000;

let active: Mutation | undefined;
/** Swaps the constant in the text of its file on the way from disk to the test. */
const mutator = {
  name: 'mutate-constants', enforce: 'pre' as const,
  transform(code: string, id: string): string | undefined {
    if (active === undefined || id.split('?')[0] !== active.path) return undefined;
    if (code.slice(active.start, active.end) !== active.from) throw new Error(`the text of ${id} is not what it was on disk`);
    return code.slice(0, active.start) + active.to + code.slice(active.end);
  },
};

/** Files that a file imports, directly or not. */
function reachedFrom(path: string, known = new Set<string>()): Set<string> {
  if (known.has(path)) return known;
  known.add(path);
  for (const [, target] of readFileSync(path, 'utf8').matchAll(/from '(\.[^']+\.ts)'/g)) reachedFrom(join(dirname(path), target!), known);
  return known;
}

/** In a seeded order; `--skip` leaves out the first ones, so that a long run can be done in parts. */
function pick(all: readonly Mutation[]): Mutation[] {
  const random = startRandom(Number(values.seed));
  return all.map((one) => ({ one, key: random.uniform() })).sort((a, b) => a.key - b.key).slice(Number(values.skip), Number(values.skip) + Number(values.sample ?? Infinity)).map(({ one }) => one);
}

const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts')).map((name) => join(folder, name)).sort();
const tests = names.filter((name) => name.endsWith('.test.ts'));
const reach = new Map(tests.map((test) => [test, reachedFrom(test)]));
const isWanted = (name: string): boolean => !name.endsWith('.test.ts') && values.only.split(',').some((part) => name.includes(part));
const all = names.filter(isWanted).flatMap((path) => numericConstants(path, values.small));
const chosen = pick(all);
const testsOf = (path: string): string[] => tests.filter((test) => reach.get(test)!.has(path));
const used = [...new Set(chosen.flatMap(({ path }) => testsOf(path)))];

/** How long each test file takes, so that quick ones go first. */
const durations = new Map<string, number>();
const isOwnTest = (test: string): boolean => active !== undefined && test === active.path.replace(/\.ts$/, '.test.ts');

/** The test named after the file first, then the quickest. */
class QuickestFirst {
  sort(specifications: TestSpecification[]): TestSpecification[] {
    return specifications.sort((a, b) => Number(isOwnTest(b.moduleId)) - Number(isOwnTest(a.moduleId)) || (durations.get(a.moduleId) ?? 0) - (durations.get(b.moduleId) ?? 0));
  }
  shard(specifications: TestSpecification[]): TestSpecification[] { return specifications; }
}

type Verdict = 'passed' | 'noticed' | 'does not load' | 'no answer';

async function runTests(vitest: Vitest, wanted: readonly string[]): Promise<Verdict> {
  const specifications = (await vitest.globTestSpecifications()).filter(({ moduleId }) => wanted.includes(moduleId));
  let late = false;
  const timer = setTimeout(() => { late = true; void vitest.cancelCurrentRun('keyboard-input'); }, PATIENCE_MS);
  const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specifications);
  clearTimeout(timer);
  const ran = testModules.filter(({ moduleId }) => wanted.includes(moduleId));
  for (const module of ran) if (module.state() === 'passed') durations.set(module.moduleId, module.diagnostic().duration);
  if (ran.some(hasFailedTest)) return 'noticed';
  if (late || unhandledErrors.length > 0) return 'no answer';
  if (ran.some((module) => module.errors().length > 0)) return 'does not load';
  return ran.length === wanted.length && ran.every((module) => module.state() === 'passed') ? 'passed' : 'no answer';
}

/** A test that ran out of time has said nothing. */
const hasFailedTest = (module: TestModule): boolean =>
  [...module.children.allTests('failed')].some((test) => test.result().errors?.some(({ message }) => !message.includes('timed out')) === true);

/** Without a mutation all tests that are run must pass, before and after, or a mutation would count as noticed that was not. */
async function expectPassing(vitest: Vitest): Promise<void> {
  const verdict = await runTests(vitest, used);
  if (verdict !== 'passed') throw new Error(`the tests of ${folder} do not pass without any mutation: ${verdict}`);
}

async function tryMutation(vitest: Vitest, mutation: Mutation): Promise<Verdict> {
  const wanted = testsOf(mutation.path);
  if (wanted.length === 0) return 'passed';
  active = mutation;
  vitest.invalidateFile(mutation.path);
  try { return await runTests(vitest, wanted); } finally {
    active = undefined;
    vitest.invalidateFile(mutation.path);
  }
}

const percent = (part: number, whole: number): string => `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`;

async function tryAll(vitest: Vitest): Promise<void> {
  const count: Record<Verdict, number> = { passed: 0, noticed: 0, 'does not load': 0, 'no answer': 0 };
  let equivalent = 0;
  const byFile = new Map<string, { noticed: number; changed: number }>();
  for (const [index, mutation] of chosen.entries()) {
    const verdict = await tryMutation(vitest, mutation);
    count[verdict] += 1;
    const file = byFile.get(mutation.path) ?? { noticed: 0, changed: 0 };
    byFile.set(mutation.path, { noticed: file.noticed + Number(verdict === 'noticed'), changed: file.changed + 1 });
    process.stderr.write(`\r${index + 1} of ${chosen.length}, ${count.noticed} noticed `);
    if (verdict === 'noticed') continue;
    const reason = reasonOfEquivalence(mutation);
    if (reason !== undefined) equivalent += 1;
    console.log(`${verdict === 'passed' ? 'not noticed' : verdict}: ${relative('.', mutation.path)}:${mutation.line} ${mutation.from} -> ${mutation.to}${reason === undefined ? '' : ` (changes no result: ${reason})`}`);
  }
  for (const [path, { noticed, changed }] of [...byFile].sort()) console.log(`${relative(folder, path)}: ${noticed} of ${changed}`);
  console.log(`${relative('.', folder)}: ${count.noticed} of ${chosen.length} changed constants noticed (${percent(count.noticed, chosen.length)}), ${all.length} constants in all; `
    + `${equivalent} that change no result left out: ${percent(count.noticed, chosen.length - equivalent)}; does not load ${count['does not load']}, no answer ${count['no answer']}`);
}

const vitest = await createVitest('test', {
  watch: false, silent: true, reporters: [{}], isolate: false, pool: 'threads', maxWorkers: 1, fileParallelism: false, bail: 1, sequence: { sequencer: QuickestFirst },
  include: tests.map((test) => relative('.', test)) }, { plugins: [mutator] });
try {
  await expectPassing(vitest);
  await tryAll(vitest);
  await expectPassing(vitest);
} finally {
  await vitest.close();
}
// The failing tests were wanted; only a thrown error makes this script fail.
process.exitCode = 0;
