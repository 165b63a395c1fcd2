// Compiles the inner loops of scans (src/science/scan/loops/assembly) to WebAssembly. `npm run loops` writes the bytes; the checks compare them.
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { root } from './prepare.js';

const folder = 'src/science/scan/loops';
const target = join(root, folder, 'loopsBytes.ts');

/** The text of the file with the compiled loops. */
export async function compileLoops() {
  const { default: asc } = await import('assemblyscript/asc');
  const files = {};
  const { error, stderr } = await asc.main(['index.ts', '--baseDir', join(root, folder, 'assembly'), '-O3', '--runtime', 'stub', '--noAssert', '--outFile', 'loops.wasm'],
    { writeFile: (name, contents) => { files[name] = contents; } });
  if (error) throw new Error(`${error.message}\n${stderr.toString()}`);
  return `/** The loops of \`assembly\`, compiled. Written by \`npm run loops\`. */\nexport const LOOPS_BASE64 = '${Buffer.from(files['loops.wasm']).toString('base64')}';\n`;
}

export const writtenLoops = () => readFileSync(target, 'utf8');

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) writeFileSync(target, await compileLoops());
