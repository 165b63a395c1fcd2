import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The hand-written files of the demo from the repository's data folder, path in the demo folder -> text. */
export function readDemoSources(): Record<string, string> {
  const data = fileURLToPath(new URL('../../../data/', import.meta.url));
  const read = (path: string) => readFileSync(join(data, path), 'utf8');
  const crops = readdirSync(join(data, 'crops')).filter((name) => name.endsWith('.yaml')).sort();
  return {
    'greenhouse.yaml': read('demo/greenhouse.yaml'),
    'fertilisers.yaml': read('fertilisers.yaml'),
    ...Object.fromEntries(crops.map((name) => [`crops/${name}`, read(`crops/${name}`)])),
  };
}
