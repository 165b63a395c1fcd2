/**
 * Changes the numeric constants of a folder one at a time, in memory, runs the tests of that folder that reach the file, and prints the
 * share that is noticed:
 *
 *   npx tsx test/campaigns/mutateConstants.ts src/science/chemistry [--sample 120] [--skip 60] [--seed 1] [--small] [--only part-of-a-file-name]
 *
 * A constant is a numeric literal other than 0, 1 and 2 (with --small: every one). Whole numbers below 20 become one more, all others grow
 * by 5 %. Files on disk are not touched, so others can go on working beside it. Without --sample every constant is tried.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import ts from 'typescript';
import { createVitest, type Vitest } from 'vitest/node';
import { startRandom } from '../../src/science/seededRandom.ts';

interface Mutation { readonly path: string; readonly line: number; readonly start: number; readonly end: number; readonly from: string; readonly to: string }

const { values, positionals } = parseArgs({ allowPositionals: true, options: {
  sample: { type: 'string' }, skip: { type: 'string', default: '0' }, seed: { type: 'string', default: '1' }, small: { type: 'boolean', default: false }, only: { type: 'string', default: '' } } });
const folder = resolve(positionals[0] ?? 'src/science');
let active: Mutation | undefined;

const changedValue = (value: number): string => String(Number.isInteger(value) && value < 20 ? value + 1 : Number((value * 1.05).toPrecision(15)));

/** All numeric literals of a file that are to be tried. */
function constantsOf(path: string): Mutation[] {
  const source = ts.createSourceFile(path, readFileSync(path, 'utf8'), ts.ScriptTarget.Latest, true);
  const found: Mutation[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNumericLiteral(node) && !ts.isLiteralTypeNode(node.parent) && (values.small || ![0, 1, 2].includes(Number(node.text)))) {
      const { line } = source.getLineAndCharacterOfPosition(node.getStart());
      found.push({ path, line: line + 1, start: node.getStart(), end: node.getEnd(), from: node.getText(), to: changedValue(Number(node.text)) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Files that a file imports, directly or not. */
function reachedFrom(path: string, known = new Set<string>()): Set<string> {
  if (known.has(path)) return known;
  known.add(path);
  for (const [, target] of readFileSync(path, 'utf8').matchAll(/from '(\.[^']+\.ts)'/g)) reachedFrom(join(dirname(path), target!), known);
  return known;
}

/** Swaps the constant in the text of its file on the way from disk to the test. */
const mutator = {
  name: 'mutate-constants', enforce: 'pre' as const,
  transform(code: string, id: string): string | undefined {
    if (active === undefined || id.split('?')[0] !== active.path) return undefined;
    if (code.slice(active.start, active.end) !== active.from) throw new Error(`the text of ${id} is not what it was on disk`);
    return code.slice(0, active.start) + active.to + code.slice(active.end);
  },
};

/** Whether every one of the tests passes with the mutation that is active. Those nearest to the file run first. */
async function testsPass(vitest: Vitest, path: string, tests: readonly string[]): Promise<boolean> {
  vitest.invalidateFile(path);
  for (const test of tests) {
    const specifications = (await vitest.globTestSpecifications([test])).filter(({ moduleId }) => moduleId === test);
    const { testModules, unhandledErrors } = await vitest.runTestSpecifications(specifications);
    if (unhandledErrors.length > 0 || testModules.some((module) => !module.ok())) return false;
  }
  return true;
}

/** In a seeded order; `--skip` leaves out the first ones, so that a long run can be done in parts. */
function pick(all: readonly Mutation[]): Mutation[] {
  const random = startRandom(Number(values.seed));
  return all.map((one) => ({ one, key: random.uniform() })).sort((a, b) => a.key - b.key).slice(Number(values.skip), Number(values.skip) + Number(values.sample ?? Infinity)).map(({ one }) => one);
}

const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.ts')).map((name) => join(folder, name)).sort();
const tests = names.filter((name) => name.endsWith('.test.ts'));
const reach = new Map(tests.map((test) => [test, reachedFrom(test)]));
const testsOf = (path: string): string[] => tests.filter((test) => reach.get(test)!.has(path))
  .sort((a, b) => Number(b === path.replace(/\.ts$/, '.test.ts')) - Number(a === path.replace(/\.ts$/, '.test.ts')) || reach.get(a)!.size - reach.get(b)!.size);

const all = names.filter((name) => !name.endsWith('.test.ts') && name.includes(values.only)).flatMap(constantsOf);
const chosen = pick(all);
const paths = [...new Set(chosen.map((one) => one.path))];

/** Without a mutation all tests must pass, before and after, or a mutation would count as noticed that was not. */
async function expectPassing(vitest: Vitest): Promise<void> {
  for (const path of paths) if (!await testsPass(vitest, path, testsOf(path))) throw new Error(`the tests of ${path} fail without any mutation`);
}
const vitest = await createVitest('test', { watch: false, silent: true, reporters: [{}], isolate: true, pool: 'threads', maxWorkers: 1, include: ['src/**/*.test.ts', 'test/**/*.test.ts'] }, { plugins: [mutator] });
try {
  await expectPassing(vitest);
  let noticed = 0;
  for (const mutation of chosen) {
    active = mutation;
    const passed = await testsPass(vitest, mutation.path, testsOf(mutation.path));
    process.stderr.write(`\r${chosen.indexOf(mutation) + 1} of ${chosen.length}, ${noticed} noticed `);
    active = undefined;
    vitest.invalidateFile(mutation.path);
    if (!passed) noticed += 1;
    else console.log(`not noticed: ${relative('.', mutation.path)}:${mutation.line} ${mutation.from} -> ${mutation.to}${testsOf(mutation.path).length === 0 ? ' (no test reaches the file)' : ''}`);
  }
  await expectPassing(vitest);
  console.log(`${relative('.', folder)}: ${noticed} of ${chosen.length} changed constants noticed (${((100 * noticed) / Math.max(1, chosen.length)).toFixed(1)} %), ${all.length} constants in all`);
} finally {
  await vitest.close();
}
// The failing tests were wanted; only a thrown error makes this script fail.
process.exitCode = 0;
