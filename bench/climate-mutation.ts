/**
 * Mutates numeric constants of a science folder one at a time, in a copy, and counts how many its tests notice.
 * Run with: npx tsx bench/climate-mutation.ts [folder=src/science/climate] [sample=all] [seed=1]
 * A constant is any numeric literal but 0, 1 and 2; whole numbers under 20 go up by 1, all others by 5 %.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';

interface Mutation { readonly file: string; readonly line: number; readonly start: number; readonly end: number; readonly from: string; readonly to: string }

const root = fileURLToPath(new URL('../', import.meta.url));
const [folder = 'src/science/climate', sample = 'all', seed = '1'] = process.argv.slice(2);

/** A project beside nothing but the folders that science tests need; shared data and packages are links. */
function copyProject(): string {
  const place = mkdtempSync(join(tmpdir(), 'mutation-'));
  const copy = join(place, 'main');
  mkdirSync(copy);
  for (const name of ['src/science', 'test', 'package.json', 'tsconfig.json']) if (existsSync(join(root, name))) cpSync(join(root, name), join(copy, name), { recursive: true });
  writeFileSync(join(copy, 'vitest.config.ts'), `export default { test: { include: ['${folder}/**/*.test.ts'], pool: 'forks', maxWorkers: 1 } };\n`);
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'));
  if (existsSync(join(root, '../shared'))) symlinkSync(join(root, '../shared'), join(place, 'shared'));
  return copy;
}

const changed = (value: number): string => String(Number.isInteger(value) && value < 20 ? value + 1 : Number((value * 1.05).toPrecision(12)));

function findConstants(copy: string, file: string): Mutation[] {
  const text = readFileSync(join(copy, file), 'utf8');
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest, true);
  const found: Mutation[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isNumericLiteral(node) && ![0, 1, 2].includes(Number(node.text))) {
      found.push({ file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, start: node.getStart(), end: node.getEnd(), from: node.getText(), to: changed(Number(node.text)) });
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return found;
}

/** Whether the folder's tests that reach a file pass; without a single test that does, nothing passes. */
function passes(copy: string, file: string): 'yes' | 'no' | 'untested' {
  const run = spawnSync('npx', ['vitest', 'related', '--run', '--bail', '1', '--silent=true', file], { cwd: copy, timeout: 120_000, encoding: 'utf8' });
  if (run.status !== 0) return 'no';
  return /Tests.*passed/.test(run.stdout) ? 'yes' : 'untested';
}

/** Whether the tests that reach the file fail with the mutation in place. */
function isNoticed(copy: string, mutation: Mutation): boolean {
  const path = join(copy, mutation.file);
  const text = readFileSync(path, 'utf8');
  writeFileSync(path, text.slice(0, mutation.start) + mutation.to + text.slice(mutation.end));
  const noticed = passes(copy, mutation.file) === 'no';
  writeFileSync(path, text);
  return noticed;
}

/** Every so-manieth in a seeded order (Park & Miller 1988). */
function pick(all: readonly Mutation[], count: number): Mutation[] {
  let state = Number(seed);
  return all.map((one) => { state = (state * 48_271) % 2_147_483_647; return { one, key: state }; }).sort((a, b) => a.key - b.key).slice(0, count).map(({ one }) => one);
}

const copy = copyProject();
try {
  const files = readdirSync(join(copy, folder)).filter((name) => name.endsWith('.ts') && !name.endsWith('.test.ts')).map((name) => join(folder, name));
  const all = files.flatMap((file) => findConstants(copy, file));
  const chosen = sample === 'all' ? all : pick(all, Number(sample));
  // Without a mutation every file's tests must pass, or every mutation would count as noticed.
  for (const file of new Set(chosen.map((one) => one.file))) if (passes(copy, file) === 'no') throw new Error(`the tests of ${file} fail without any mutation`);
  let noticed = 0;
  for (const mutation of chosen) {
    if (isNoticed(copy, mutation)) noticed += 1;
    else console.log(`not noticed: ${mutation.file}:${mutation.line} ${mutation.from} -> ${mutation.to}`);
  }
  console.log(`${folder}: ${noticed} of ${chosen.length} mutated constants noticed (${(100 * noticed / chosen.length).toFixed(0)} %), ${all.length} constants in all`);
} finally {
  rmSync(join(copy, '..'), { recursive: true, force: true });
}
