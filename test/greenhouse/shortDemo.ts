import { demoGreenhouse } from '../../src/twin/demo/demoGreenhouse.ts';
import { readDemoSources } from '../../src/twin/demo/readDemoSources.ts';

/** The demonstration greenhouse with its long tables cut short, so that it can be read hundreds of times. */
export function shortDemo(rows = 120): Record<string, string> {
  const files = demoGreenhouse({ seed: 11, date: '2026-03-03', written: readDemoSources() });
  const cut = (path: string, keep: number) => { files[path] = `${(files[path] ?? '').split('\n').slice(0, keep + 1).join('\n')}\n`; };
  for (const path of ['readings.csv', 'samples.csv', 'orders.csv']) cut(path, rows);
  return files;
}
