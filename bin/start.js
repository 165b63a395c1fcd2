// npm start: everything from a fresh clone to the open desk of the demo greenhouse.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { ensureBuilt, ensureInstalled, root, say } from './prepare.js';

ensureInstalled();
ensureBuilt();
const main = join(root, 'dist', 'cli', 'main.js');
const demo = join(root, 'greenhouse-demo');
if (!existsSync(join(demo, 'greenhouse.yaml'))) {
  say('Writing the demo greenhouse to ./greenhouse-demo ...');
  const made = spawnSync(process.execPath, [main, 'demo', demo], { stdio: 'inherit' });
  if (made.status !== 0) process.exit(made.status ?? 2);
}
process.argv.splice(2, process.argv.length, 'desk', demo, ...process.argv.slice(2));
await import(pathToFileURL(main).href);
