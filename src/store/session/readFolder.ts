import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { accepted, refused, type Outcome, type Refusal } from '../../science/refusal.ts';

const FILES = ['greenhouse.yaml', 'fertilisers.yaml', 'orders.csv', 'lots.csv', 'sowings.csv', 'readings.csv', 'samples.csv', 'water-analyses.csv', 'weather.epw', 'weather.csv'];
const LARGEST_MB = 200;

/** The texts of a greenhouse folder, path in the folder -> text. Other files in it are left alone. */
export function readFolder(folder: string): Outcome<Record<string, string>> {
  if (statSync(folder, { throwIfNoEntry: false })?.isDirectory() !== true) {
    return refused([refusal('file-missing', folder, `There is no folder ${folder}; \`watermeadow demo ${folder}\` writes an example there.`)]);
  }
  const texts: Record<string, string> = {};
  const wrong: Refusal[] = [];
  for (const path of [...FILES, ...cropFiles(folder)]) {
    const text = readText(folder, path);
    if (text === undefined) continue;
    if (text.ok) texts[path] = text.value;
    else wrong.push(...text.refusals);
  }
  return wrong.length > 0 ? refused(wrong) : accepted(texts);
}

function cropFiles(folder: string): string[] {
  const crops = join(folder, 'crops');
  if (statSync(crops, { throwIfNoEntry: false })?.isDirectory() !== true) return [];
  return readdirSync(crops).filter((name) => /\.ya?ml$/.test(name)).sort().map((name) => `crops/${name}`);
}

function readText(folder: string, path: string): Outcome<string> | undefined {
  const file = join(folder, path);
  const is = statSync(file, { throwIfNoEntry: false });
  if (is === undefined) return undefined;
  if (!is.isFile()) return refused([refusal('file-unreadable', path, `${path} is not a file.`)]);
  if (is.size > LARGEST_MB * 1e6) return refused([refusal('file-unreadable', path, `${path} is larger than ${LARGEST_MB} MB.`)]);
  try {
    return accepted(new TextDecoder('utf-8', { fatal: true }).decode(readFileSync(file)));
  } catch (error) {
    if (error instanceof TypeError) return refused([refusal('file-unreadable', path, `${path} is not UTF-8 text; save it as UTF-8.`)]);
    throw error;
  }
}

const refusal = (code: Refusal['code'], path: string, message: string): Refusal => ({ code, severity: 'error', path, message });
