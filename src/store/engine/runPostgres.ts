import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, existsSync, openSync, readFileSync, renameSync, statSync } from 'node:fs';
import { release } from 'node:os';
import { setTimeout as sleep } from 'node:timers/promises';
import { StoreFault } from '../storeFault.ts';
import type { Owner } from './chooseOwner.ts';
import { engineEnvironment } from './createCluster.ts';
import { type DatabasePaths, ownView } from './databasePaths.ts';
import type { Engine } from './findEngine.ts';
import type { Listening } from './listening.ts';

const READY_MS = 120_000;
const LARGEST_LOG_B = 1_000_000;

/** A database server that is ready, child of this process. */
export interface RunningPostgres {
  readonly pid: number;
  /** Settles when it has ended, however. */
  readonly ended: Promise<void>;
  readonly signal: (name: NodeJS.Signals) => void;
}

/** Starts the server as a direct child and waits until it takes connections. */
export async function runPostgres(engine: Engine, paths: DatabasePaths, owner: Owner | undefined, listening: Listening): Promise<RunningPostgres> {
  const logFile = openLog(paths.log);
  const child = spawn(engine.postgres, ['-D', ownView(paths.cluster), ...settings(paths, listening)],
    // Detached: Ctrl-C in a terminal reaches this program alone, which then stops the database in good order.
    { ...owner, cwd: paths.cluster, env: engineEnvironment(), detached: true, stdio: ['ignore', logFile, logFile] });
  closeSync(logFile);
  let hasEnded = false;
  const ended = new Promise<void>((resolve) => {
    const end = () => { hasEnded = true; resolve(); };
    child.once('exit', end);
    child.once('error', end);
  });
  await waitUntilReady(child, paths, () => hasEnded);
  return { pid: child.pid!, ended, signal: (name) => { if (!hasEnded) child.kill(name); } };
}

/** What differs from the engine's own defaults; everything about durability is said, default or not. */
function settings(paths: DatabasePaths, { port, address }: Listening): string[] {
  const given = {
    fsync: 'on', full_page_writes: 'on', synchronous_commit: 'on',
    listen_addresses: address, port: String(port), unix_socket_directories: address === '' ? ownView(paths.cluster) : '', unix_socket_permissions: '0700',
    max_connections: '20', shared_buffers: '96MB', wal_level: 'minimal', max_wal_senders: '0', max_wal_size: '512MB', max_logical_replication_workers: '0', recovery_init_sync_method: syncMethod(), io_method: 'sync', jit: 'off',
    log_min_messages: 'warning', log_checkpoints: 'off', log_timezone: 'UTC', timezone: 'UTC', client_encoding: 'UTF8',
  };
  return Object.entries(given).flatMap(([name, value]) => ['-c', `${name}=${value}`]);
}

/**
 * How files are flushed before recovery: all at once where the kernel reports errors of that (Linux 5.8; PostgreSQL manual, recovery_init_sync_method),
 * else one by one, which takes seconds.
 */
function syncMethod(): 'syncfs' | 'fsync' {
  const [major = 0, minor = 0] = release().split('.').map(Number);
  return process.platform === 'linux' && (major > 5 || (major === 5 && minor >= 8)) ? 'syncfs' : 'fsync';
}

/** The server writes its state into the last line of its pid file. */
async function waitUntilReady(child: ChildProcess, paths: DatabasePaths, hasEnded: () => boolean): Promise<void> {
  const untilMs = performance.now() + READY_MS;
  while (!isReady(paths, child.pid)) {
    if (hasEnded()) throw new StoreFault('engine-failed', `The database did not start: ${lastWords(paths.log)}`);
    if (performance.now() > untilMs) {
      child.kill('SIGQUIT');
      throw new StoreFault('engine-failed', `The database is not ready after ${READY_MS / 1000} s: ${lastWords(paths.log)}`);
    }
    await sleep(10);
  }
}

function isReady(paths: DatabasePaths, pid: number | undefined): boolean {
  if (!existsSync(paths.postmasterPid)) return false;
  const lines = readFileSync(paths.postmasterPid, 'utf8').split('\n');
  return Number(lines[0]) === pid && lines[7]?.trim() === 'ready';
}

function openLog(log: string): number {
  const size = statSync(log, { throwIfNoEntry: false })?.size ?? 0;
  if (size > LARGEST_LOG_B) renameSync(log, `${log}.1`);
  return openSync(log, 'a', 0o600);
}

const lastWords = (log: string): string => readFileSync(log, 'utf8').trim().split('\n').slice(-3).join(' | ');
