import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { publishedSchemas } from '../../greenhouse/files/publishedSchemas.ts';
import { accepted, refused, type Outcome } from '../../science/refusal.ts';
import { demoGreenhouse } from '../../twin/demo/demoGreenhouse.ts';
import { demoScans } from '../../twin/demo/demoScans.ts';
import { readDemoSources } from '../../twin/demo/readDemoSources.ts';
import type { CliCommand, CommandAnswer, GivenOptions } from '../cliCommand.ts';
import { refuseOption } from '../refuseOption.ts';

export const demoCommand: CliCommand = {
  name: 'demo', argument: 'DIR',
  options: [
    { flags: '--date <date>', summary: 'The morning that it is made for, YYYY-MM-DD (today where absent).' },
    { flags: '--seed <number>', summary: 'Another seed invents another greenhouse (7 where absent).' },
  ],
  summary: 'Write the demonstration greenhouse into an empty folder.',
  run: async (folder, options, world) => writeDemo(folder, options, world.nowAt()),
};

function writeDemo(folder: string, options: GivenOptions, nowAt: string): Outcome<CommandAnswer> {
  const date = String(options.date ?? nowAt.slice(0, 10));
  const seed = Number(options.seed ?? 7);
  if (!isDate(date)) return refuseOption('--date', date, 'a calendar date as YYYY-MM-DD from 1950 to 2100');
  if (!Number.isInteger(seed) || seed < 0 || seed > 4_294_967_295) return refuseOption('--seed', String(options.seed), 'a whole number from 0 to 4294967295');
  mkdirSync(folder, { recursive: true });
  const there = readdirSync(folder);
  if (there.length > 0) return refused([{ code: 'state-conflict', severity: 'error', path: folder, value: there.slice(0, 3).join(', '), message: `${folder} is not empty; the demonstration is only written into an empty folder.` }]);
  const schemas = Object.entries(publishedSchemas()).map(([name, schema]) => [`.schemas/${name}`, `${JSON.stringify(schema, undefined, 1)}\n`]);
  const files: Record<string, string> = { ...demoGreenhouse({ seed, date, written: readDemoSources() }), ...Object.fromEntries(schemas) };
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const clouds: string[] = [];
  for (const { path, bytes } of demoScans(seed, date)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), bytes);
    clouds.push(path);
  }
  const paths = [...Object.keys(files), ...clouds].sort();
  return accepted({ json: { folder, date, seed, files: paths }, sheet: `Wrote ${paths.length} files to ${folder} for the morning of ${date}. Everything in them is invented.` });
}

const isDate = (text: string): boolean => {
  if (!/^(19[5-9]\d|20\d\d|2100)-\d\d-\d\d$/.test(text)) return false;
  const ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(ms) && new Date(ms).toISOString().startsWith(text);
};
