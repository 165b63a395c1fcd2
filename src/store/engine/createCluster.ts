import { spawn } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chownSync, closeSync, existsSync, fsyncSync, mkdirSync, openSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { StoreFault } from '../storeFault.ts';
import type { Owner } from './chooseOwner.ts';
import { type DatabasePaths, ownView } from './databasePaths.ts';
import type { Engine } from './findEngine.ts';

export const DATABASE_USER = 'watermeadow';

/** Makes the cluster where there is none yet. One that was broken off half way is made anew. */
export async function createCluster(engine: Engine, paths: DatabasePaths, owner: Owner | undefined): Promise<void> {
  refuseForeignHome(paths);
  if (existsSync(paths.cluster)) return checkCluster(engine, paths);
  try {
    prepareHome(paths, owner);
  } catch (error) {
    throw new StoreFault('folder-unusable', `The database cannot be kept in ${paths.home}: ${(error as Error).message}. Choose a folder on a local disk that this program may write, or give the address of a PostgreSQL server.`, error);
  }
  await runInitdb(engine, paths, owner);
  renameSync(paths.fresh, paths.cluster);
  flushFolder(paths.home);
}

function refuseForeignHome(paths: DatabasePaths): void {
  const owner = statSync(paths.home, { throwIfNoEntry: false })?.uid;
  const self = process.getuid?.();
  if (owner === undefined || self === undefined || self === 0 || owner === self) return;
  throw new StoreFault('folder-unusable', `The database in ${paths.home} belongs to user ${owner}. Start as that user or as root.`);
}

/** The folders and the password; everything closed to others. */
function prepareHome(paths: DatabasePaths, owner: Owner | undefined): void {
  rmSync(paths.fresh, { recursive: true, force: true });
  mkdirSync(paths.home, { recursive: true, mode: 0o700 });
  mkdirSync(paths.fresh, { mode: 0o700 });
  writeFileSync(paths.password, randomBytes(24).toString('base64url'), { mode: 0o600, flush: true });
  if (owner !== undefined) for (const path of [paths.home, paths.fresh, paths.password]) chownSync(path, owner.uid, owner.gid);
}

async function runInitdb(engine: Engine, paths: DatabasePaths, owner: Owner | undefined): Promise<void> {
  const view = ownView(paths.fresh);
  const passwordFile = process.platform === 'linux' ? `${view}/../password` : paths.password;
  const child = spawn(engine.initdb, ['-D', view, '--username', DATABASE_USER, '--pwfile', passwordFile, '--auth', 'scram-sha-256',
    '--encoding', 'UTF8', '--locale', 'C', '--no-instructions'], { ...owner, cwd: paths.fresh, env: engineEnvironment(), stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.setEncoding('utf8').on('data', (text: string) => { said += text; });
  const status = await new Promise<number | null>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', resolve);
  });
  if (status !== 0) throw new StoreFault('folder-unusable', `A database could not be made in ${paths.home}: ${said.trim().split('\n').slice(-5).join(' | ')}`);
}

/** A cluster of another major version cannot be opened by this engine. */
function checkCluster(engine: Engine, paths: DatabasePaths): void {
  let made: string;
  try {
    made = readFileSync(join(paths.cluster, 'PG_VERSION'), 'utf8').trim();
    readFileSync(paths.password);
  } catch (error) {
    throw new StoreFault('storage-damaged', `The database in ${paths.home} lacks a file: ${(error as Error).message}`, error);
  }
  const ours = engine.version.split('.')[0];
  if (made !== ours) throw new StoreFault('database-unsuitable', `The database was made by PostgreSQL ${made} and this program brings ${ours}. Export it with the former program and restore it.`);
}

function flushFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  fsyncSync(handle);
  closeSync(handle);
}

/** Nothing of this program's environment but what the database needs. */
export const engineEnvironment = (): NodeJS.ProcessEnv => ({
  PATH: process.env['PATH'], LC_ALL: 'C', TZ: 'UTC', ...(process.platform === 'win32' ? { SystemRoot: process.env['SystemRoot'] } : {}),
});
