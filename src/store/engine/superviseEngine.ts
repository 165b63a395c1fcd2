import { readFileSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import type { ClientConfig } from 'pg';
import { chooseOwner } from './chooseOwner.ts';
import { createCluster } from './createCluster.ts';
import { databasePaths } from './databasePaths.ts';
import { findEngine } from './findEngine.ts';
import { stopLeftovers } from './leftovers.ts';
import { chooseListening, connectionTo } from './listening.ts';
import { reachableEngine } from './reachableEngine.ts';
import { type RunningPostgres, runPostgres } from './runPostgres.ts';

const STOP_MS = 20_000;
const QUIT_MS = 5_000;
/** After so many ends within a minute the database is not started again. */
const MOST_RESTARTS = 5;
const PAUSE_MS = 500;
const A_MINUTE_MS = 60_000;

/** The embedded database of one folder, kept running until it is stopped. */
export interface SupervisedEngine {
  readonly connection: ClientConfig;
  readonly stop: () => Promise<void>;
  /** Tells the server to stop and does not wait: for the last moment of this process. */
  readonly stopUnattended: () => void;
}

/** Starts the embedded database of a folder (making it first where there is none) and starts it again when it ends by itself. */
export async function superviseEngine(folder: string, stateFolder: string, log: (message: string) => void): Promise<SupervisedEngine> {
  const paths = databasePaths(stateFolder);
  const owner = chooseOwner(folder, paths.home);
  const engine = reachableEngine(findEngine(), owner, log);
  await createCluster(engine, paths, owner);
  const listening = await chooseListening(paths);
  const start = async (): Promise<RunningPostgres> => {
    await stopLeftovers(paths, log);
    return runPostgres(engine, paths, owner, listening);
  };
  let running = await start();
  let stopping = false;
  let ends: number[] = [];
  const keepUp = async (): Promise<void> => {
    for (;;) {
      await running.ended;
      if (stopping) return;
      ends = [...ends.filter((ms) => performance.now() - ms < A_MINUTE_MS), performance.now()];
      if (ends.length > MOST_RESTARTS) return log(`The database ended ${ends.length} times within a minute and is not started again; ${paths.log} says why.`);
      log('The database ended by itself and is started again.');
      await sleep(PAUSE_MS * (ends.length - 1));
      try {
        running = await start();
      } catch (error) {
        log(`The database could not be started again: ${(error as Error).message}`);
      }
      if (stopping) return endServer(running);
    }
  };
  const keeping = keepUp();
  return {
    connection: connectionTo(paths, listening, readFileSync(paths.password, 'utf8')),
    stopUnattended: () => {
      stopping = true;
      running.signal('SIGINT');
    },
    stop: async () => {
      stopping = true;
      await endServer(running);
      await keeping;
    },
  };
}

async function endServer(running: RunningPostgres): Promise<void> {
  for (const [name, patienceMs] of [['SIGINT', STOP_MS], ['SIGQUIT', QUIT_MS], ['SIGKILL', QUIT_MS]] as const) {
    running.signal(name);
    const patience = new AbortController();
    const hasEnded = await Promise.race([running.ended.then(() => true), sleep(patienceMs, false, { signal: patience.signal }).catch(() => true)]);
    patience.abort();
    if (hasEnded) return;
  }
}
