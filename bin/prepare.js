// What a fresh clone needs before anything can run: packages and the built program. Plain Node, no dependencies.
import { createHash } from 'node:crypto';
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = dirname(dirname(fileURLToPath(import.meta.url)));
const lockStamp = join(root, 'node_modules', '.watermeadow-lock');
const buildStamp = join(root, 'dist', '.stamp');

/** Says a line on standard error, so that standard output stays free for results. */
export const say = (line) => process.stderr.write(`${line}\n`);

/** Runs a command with its output on standard error; ends this program when the command fails. */
export function run(command, args, options = {}) {
  const result = spawnSync(command, args, { cwd: root, stdio: ['ignore', 2, 2], ...options });
  if (result.status === 0) return;
  say(`watermeadow: '${command} ${args.join(' ')}' failed${result.error ? `: ${result.error.message}` : ''}.`);
  process.exit(2);
}

/** Installs the packages of package-lock.json unless exactly these are installed already. */
export function ensureInstalled() {
  if (Number(process.versions.node.split('.')[0]) < 20) {
    say(`watermeadow: Node 20 or newer is needed; this is ${process.versions.node}.`);
    process.exit(2);
  }
  const wanted = hashOf([join(root, 'package-lock.json')]);
  if (existsSync(lockStamp) && readFileSync(lockStamp, 'utf8') === wanted) return;
  say('Installing packages (once, about half a minute) ...');
  run('npm', ['ci', '--include=dev', '--no-audit', '--no-fund', '--loglevel=error'], { env: { ...process.env, NODE_ENV: 'development' } });
  writeFileSync(lockStamp, wanted);
}

/** Compiles the program and the pages unless the present sources are built already. */
export function ensureBuilt() {
  const wanted = hashOf(sourceFiles(), true);
  if (existsSync(buildStamp) && readFileSync(buildStamp, 'utf8') === wanted) return;
  say('Building (once per change) ...');
  run(process.execPath, [join(root, 'node_modules/typescript/bin/tsc'), '-p', 'tsconfig.build.json']);
  run(process.execPath, [join(root, 'node_modules/vite/bin/vite.js'), 'build', '--logLevel', 'warn']);
  writeFileSync(buildStamp, wanted);
}

function sourceFiles() {
  const settings = ['package-lock.json', 'tsconfig.json', 'tsconfig.build.json', 'vite.config.ts'].map((name) => join(root, name));
  return [...settings.filter((path) => existsSync(path)), ...filesBelow(join(root, 'src')), ...filesBelow(join(root, 'data'))];
}

function filesBelow(folder) {
  return readdirSync(folder, { withFileTypes: true })
    .flatMap((entry) => (entry.isDirectory() ? filesBelow(join(folder, entry.name)) : [join(folder, entry.name)]))
    .filter((path) => !/\.test\.tsx?$/.test(path))
    .sort();
}

function hashOf(paths, byTime = false) {
  const hash = createHash('sha256');
  for (const path of paths) {
    hash.update(`${relative(root, path)}\n`);
    if (byTime) { const at = statSync(path); hash.update(`${at.size} ${at.mtimeMs}\n`); } else hash.update(readFileSync(path));
  }
  return hash.digest('hex');
}
