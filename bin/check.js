// npm run check: types, lint, the dependency rule of the house, unused code, lock file without addresses, compiled loops as their sources say.
import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { compileLoops, writtenLoops } from './loops.js';
import { ensureInstalled, root } from './prepare.js';

ensureInstalled();
const tool = (path, ...args) => spawnSync(process.execPath, [join(root, 'node_modules', path), ...args], { cwd: root, encoding: 'utf8' });
const checks = {
  types: () => tool('typescript/bin/tsc', '-p', 'tsconfig.json'),
  lint: () => tool('oxlint/bin/oxlint', 'src', 'test', 'bench', 'bin'),
  'arrows point down': arrows,
  'unused code': () => tool('knip/bin/knip.js'),
  'lock file': lockFile,
  'compiled loops': loops,
};
let failed = 0;
for (const [name, check] of Object.entries(checks)) {
  const { status, stdout, stderr } = await check();
  process.stdout.write(`${status === 0 ? 'ok     ' : 'FAILED '} ${name}\n`);
  if (status === 0) continue;
  failed += 1;
  process.stdout.write(`${stdout ?? ''}${stderr ?? ''}\n`);
}
process.exit(failed === 0 ? 0 : 1);

/** Fails also when no module was seen, since a tool that sees nothing finds nothing. */
function arrows() {
  const result = tool('dependency-cruiser/bin/dependency-cruise.mjs', 'src', '--config', '.dependency-cruiser.cjs', '--output-type', 'err-long');
  const modules = Number(/\((\d+) modules/.exec(result.stdout ?? '')?.[1] ?? 0);
  return modules > 20 ? result : { status: 1, stdout: result.stdout, stderr: `${result.stderr}\nonly ${modules} modules were seen` };
}

async function loops() {
  return { status: await compileLoops() === writtenLoops() ? 0 : 1, stdout: 'src/science/scan/loops/loopsBytes.ts does not come from the sources beside it: npm run loops' };
}

function lockFile() {
  const lock = JSON.parse(readFileSync(join(root, 'package-lock.json'), 'utf8'));
  const named = Object.entries(lock.packages).filter(([, entry]) => entry.resolved !== undefined).map(([name]) => name);
  return { status: named.length === 0 ? 0 : 1, stdout: `download addresses in package-lock.json: ${named.slice(0, 5).join(', ')}` };
}
