import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Client } from 'pg';
import { databasePaths } from '../../src/store/engine/databasePaths.ts';
import { chooseListening, connectionTo } from '../../src/store/engine/listening.ts';
import type { StoreBench } from './contract/storeBench.ts';

/** Stores with the embedded database, all in one temporary folder. */
export function embeddedBench(): StoreBench {
  const folder = mkdtempSync(join(tmpdir(), 'watermeadow-bench-'));
  const paths = databasePaths(join(folder, '.watermeadow'));
  return {
    settings: (greenhouse) => ({ folder, greenhouse }),
    behind: async (work) => withClient(new Client(connectionTo(paths, await chooseListening(paths), readFileSync(paths.password, 'utf8'))), work),
    remove: () => Promise.resolve(rmSync(folder, { recursive: true, force: true })),
  };
}

/** Connects, works, ends. */
export async function withClient<T>(client: Client, work: (client: Client) => Promise<T>): Promise<T> {
  await client.connect();
  try {
    return await work(client);
  } finally {
    await client.end();
  }
}
