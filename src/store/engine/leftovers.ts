import { spawnSync } from 'node:child_process';
import { readFileSync, readdirSync, readlinkSync, realpathSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { StoreFault } from '../storeFault.ts';
import type { DatabasePaths } from './databasePaths.ts';

const POLITE_MS = 8_000;
const FIRM_MS = 4_000;

/**
 * Ends what a killed program left running on this cluster, and removes the pid file once nothing runs any more. A pid file alone
 * proves nothing: its number may belong to another program by now, or to a dead one that its parent never collected.
 */
export async function stopLeftovers(paths: DatabasePaths, log: (message: string) => void): Promise<void> {
  const first = runningOn(paths);
  if (first.length > 0) {
    log(`A database that an earlier program left running (process ${postmasterOf(paths) ?? first.join(', ')}) is stopped first.`);
    await endAll(paths);
  }
  if (process.platform === 'linux') for (const name of ['postmaster.pid', '.s.PGSQL.5432', '.s.PGSQL.5432.lock']) rmSync(join(paths.cluster, name), { force: true });
}

/** Smoothly, then without a checkpoint (the next start recovers), then by force. No signal goes to a process that is not proven to be ours. */
async function endAll(paths: DatabasePaths): Promise<void> {
  signalPostmaster(paths, 'SIGINT');
  if (await waitForEnd(paths, POLITE_MS)) return;
  signalPostmaster(paths, 'SIGQUIT');
  if (await waitForEnd(paths, FIRM_MS)) return;
  for (const pid of runningOn(paths)) signal(pid, 'SIGKILL');
  if (!await waitForEnd(paths, FIRM_MS)) throw new StoreFault('engine-failed', `A former database of this folder does not end: process ${runningOn(paths).join(', ')}. End it, then try again.`);
}

function signalPostmaster(paths: DatabasePaths, name: NodeJS.Signals): void {
  const pid = postmasterOf(paths);
  if (pid !== undefined && runningOn(paths).includes(pid)) signal(pid, name);
}

async function waitForEnd(paths: DatabasePaths, patienceMs: number): Promise<boolean> {
  const untilMs = performance.now() + patienceMs;
  while (runningOn(paths).length > 0) {
    if (performance.now() > untilMs) return false;
    await sleep(20);
  }
  return true;
}

/** The number in the pid file, right or not. */
export function postmasterOf(paths: DatabasePaths): number | undefined {
  try {
    const pid = Number(readFileSync(paths.postmasterPid, 'utf8').split('\n')[0]);
    return Number.isSafeInteger(pid) && pid > 1 ? pid : undefined;
  } catch {
    return undefined;
  }
}

/** Processes of PostgreSQL, zombies apart, that work in this cluster. */
export function runningOn(paths: DatabasePaths): number[] {
  if (process.platform !== 'linux') return [postmasterOf(paths)].filter((pid) => pid !== undefined).filter(isPostgres);
  let cluster: string;
  try {
    cluster = realpathSync(paths.cluster);
  } catch {
    return [];
  }
  return readdirSync('/proc').filter((name) => /^\d+$/.test(name)).map(Number).filter((pid) => worksIn(pid, cluster));
}

/** Each process of PostgreSQL works in the folder of its cluster. A zombie has no folder any more. */
function worksIn(pid: number, cluster: string): boolean {
  try {
    return readlinkSync(`/proc/${pid}/cwd`) === cluster && readFileSync(`/proc/${pid}/comm`, 'utf8').startsWith('postgres');
  } catch {
    return false;
  }
}

function isPostgres(pid: number): boolean {
  if (process.platform === 'win32') return spawnSync('tasklist', ['/FI', `PID eq ${pid}`, '/NH'], { encoding: 'utf8' }).stdout.includes('postgres');
  return spawnSync('ps', ['-p', String(pid), '-o', 'comm='], { encoding: 'utf8' }).stdout.includes('postgres');
}

function signal(pid: number, name: NodeJS.Signals): void {
  try {
    process.kill(pid, name);
  } catch {
    // It ended meanwhile.
  }
}
