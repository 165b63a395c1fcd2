import { spawnSync } from 'node:child_process';
import { cpSync, existsSync, lstatSync, mkdirSync, mkdtempSync, renameSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { StoreFault } from '../storeFault.ts';
import type { Owner } from './chooseOwner.ts';
import { type Engine, engineIn } from './findEngine.ts';

/** Where a copy of the programs may lie that everybody can run. */
const COPY_FOLDERS = ['/var/cache/watermeadow', join(tmpdir(), 'watermeadow-engine')];

/** The engine itself, or a copy of it where its owner may not look into the folder that it lies in (a private home, say). */
export function reachableEngine(engine: Engine, owner: Owner | undefined, log: (message: string) => void, copyFolders = COPY_FOLDERS): Engine {
  const problem = tryRunning(engine, owner);
  if (problem === undefined) return engine;
  if (owner === undefined || problem.code !== 'EACCES') throw cannotRun(engine, owner, problem);
  const copy = copyEngine(engine, copyFolders);
  const second = tryRunning(copy, owner);
  if (second !== undefined) throw cannotRun(copy, owner, second);
  log(`The database programs lie in a private folder; a copy in ${copy.folder} is used.`);
  return copy;
}

interface Problem { readonly code: string | undefined; readonly message: string }

function tryRunning(engine: Engine, owner: Owner | undefined): Problem | undefined {
  const { error, status, stderr } = spawnSync(engine.postgres, ['--version'], { ...owner, cwd: '/', encoding: 'utf8' });
  if (error !== undefined) return { code: (error as NodeJS.ErrnoException).code, message: error.message };
  return status === 0 ? undefined : { code: undefined, message: stderr.trim() };
}

function cannotRun(engine: Engine, owner: Owner | undefined, problem: Problem): StoreFault {
  if (owner !== undefined && (problem.code === 'EPERM' || problem.code === 'EINVAL')) {
    return new StoreFault('folder-unusable', `This program runs as root, the database may not, and no other user (${owner.uid}) can be taken on here. Start as an ordinary user, or give the address of a PostgreSQL server.`, problem);
  }
  return new StoreFault('engine-missing', `The database programs in ${engine.folder} do not run on this computer: ${problem.message}`, problem);
}

function copyEngine(engine: Engine, copyFolders: readonly string[]): Engine {
  const failures: unknown[] = [];
  for (const folder of copyFolders) {
    try {
      return engineIn(copyInto(engine, folder), engine.version);
    } catch (error) {
      failures.push(error);
    }
  }
  throw new StoreFault('folder-unusable', `The database programs lie in a private folder (${engine.folder}) and could not be copied into ${copyFolders.join(' or ')}.`, failures[0]);
}

function copyInto(engine: Engine, folder: string): string {
  mkdirSync(folder, { recursive: true, mode: 0o755 });
  const { uid, mode } = lstatSync(folder);
  if (uid !== 0 || (mode & 0o022) !== 0) throw new Error(`${folder} can be written by others`);
  const target = join(folder, engine.version);
  if (existsSync(target)) return target;
  const fresh = mkdtempSync(join(folder, 'fresh-'));
  cpSync(engine.folder, join(fresh, 'native'), { recursive: true, verbatimSymlinks: true });
  try {
    renameSync(join(fresh, 'native'), target);
  } catch (error) {
    // Another program may have copied the same at the same time.
    if (!existsSync(target)) throw error;
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
  return target;
}
