// npm test: everything from a fresh clone to the verdict of all tests, the ones in a real browser and on a real database included.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { ensureBuilt, ensureInstalled, root, say } from './prepare.js';

const BROWSERS = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

ensureInstalled();
ensureBuilt();
ensureFromDistribution('chromium', () => BROWSERS.some(existsSync), 'browser tests');
ensureFromDistribution('postgresql', hasPostgresServer, 'tests on a PostgreSQL server');
process.exit(runTests(process.argv.slice(2)));

function hasPostgresServer() {
  const base = '/usr/lib/postgresql';
  return existsSync(base) && readdirSync(base).some((version) => existsSync(join(base, version, 'bin', 'postgres')));
}

/** Installs a package of the distribution when it is missing and this user may. */
function ensureFromDistribution(name, isThere, what) {
  if (isThere()) return;
  const asRoot = process.getuid?.() === 0 ? [] : ['sudo', '-n'];
  const apt = (...args) => spawnSync([...asRoot, 'apt-get', ...args][0], [...asRoot, 'apt-get', ...args].slice(1),
    { stdio: ['ignore', 'ignore', 2], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } }).status === 0;
  say(`Installing ${name} from the distribution for the ${what} ...`);
  if (apt('update', '-qq') && apt('install', '-y', '-qq', '--no-install-recommends', name) && isThere()) return;
  say(`Could not install ${name}: the ${what} will say so and skip.`);
}

function runTests(args) {
  const folder = mkdtempSync(join(tmpdir(), 'watermeadow-test-'));
  const report = join(folder, 'report.json');
  const vitest = spawnSync(process.execPath, [join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json', `--outputFile.json=${report}`, ...args],
    { cwd: root, stdio: 'inherit' });
  const counts = existsSync(report) ? JSON.parse(readFileSync(report, 'utf8')) : undefined;
  rmSync(folder, { recursive: true, force: true });
  if (counts === undefined) return 2;
  const failed = Math.max(counts.numFailedTests, vitest.status === 0 ? 0 : 1);
  const skipped = counts.numPendingTests + (counts.numTodoTests ?? 0);
  process.stdout.write(`${counts.numPassedTests} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`);
  return failed === 0 ? 0 : 1;
}
