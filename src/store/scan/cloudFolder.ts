import { mkdirSync } from 'node:fs';
import { readdir, readFile, stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { CloudPlace, ListedCloud } from './cloudPlace.ts';
import { CLOUD_NAME } from './readCloudName.ts';

/** The folder scans/ of a greenhouse. A file is complete when two looks in a row find it with the same size and time. */
export function cloudFolder(greenhouseFolder: string): CloudPlace {
  const folder = join(greenhouseFolder, 'scans');
  mkdirSync(folder, { recursive: true });
  let lastLook = new Map<string, string>();
  return {
    words: 'the folder scans/ of the greenhouse',
    list: async () => {
      const found = await lookInto(folder);
      const before = lastLook;
      lastLook = new Map(found.map((file) => [file.name, print(file)]));
      return found.filter((file) => before.get(file.name) === print(file));
    },
    beside: (name) => readFile(join(folder, `${name}.json`), 'utf8').catch(absent),
    owns: (name) => !name.includes('/'),
    fetch: async (name) => ((await stat(join(folder, name)).catch(absent))?.isFile() === true ? join(folder, name) : undefined),
    rest: nothing, drop: nothing, close: () => undefined,
  };
}

const nothing = async (): Promise<void> => undefined;
const print = ({ bytes, modifiedMs }: ListedCloud): string => `${bytes} ${modifiedMs}`;

async function lookInto(folder: string): Promise<ListedCloud[]> {
  const names = (await readdir(folder)).sort(), all = new Set(names);
  const listed = await Promise.all(names.filter((name) => CLOUD_NAME.test(name)).map(async (name): Promise<ListedCloud[]> => {
    const file = await stat(join(folder, name)).catch(absent);
    const beside = all.has(`${name}.json`) ? await stat(join(folder, `${name}.json`)).catch(absent) : undefined;
    return file?.isFile() === true ? [{ name, bytes: file.size, modifiedMs: Math.max(file.mtimeMs, beside?.mtimeMs ?? 0) }] : [];
  }));
  return listed.flat();
}

/** A file may go away between two looks; every other fault is one. */
function absent(error: unknown): undefined {
  if ((error as NodeJS.ErrnoException).code === 'ENOENT') return undefined;
  throw error;
}
