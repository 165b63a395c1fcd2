import { setTimeout as sleep } from 'node:timers/promises';
import { asStoreFault, isAway } from './asStoreFault.ts';

const PAUSE_MS = 50;

/** Asks again while the database is away (it restarts in a second or two after a crash), for `patienceMs` at most. Only for work that may be done twice. */
export async function untilAnswered<T>(work: () => Promise<T>, patienceMs: number): Promise<T> {
  const untilMs = performance.now() + patienceMs;
  for (;;) {
    try {
      return await work();
    } catch (error) {
      const fault = asStoreFault(error);
      if (!isAway(fault) || performance.now() > untilMs) throw fault;
      await sleep(PAUSE_MS);
    }
  }
}
