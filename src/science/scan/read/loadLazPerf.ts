import type { LazPerf } from 'laz-perf';
import { createLazPerf } from 'laz-perf';

const EVENTS = ['uncaughtException', 'unhandledRejection'];

/**
 * A fresh instance of the library that unpacks LAZ (laz-perf, Apache-2.0, WebAssembly). One for each file: a damaged file may leave it
 * unusable. The only asynchronous step of reading. Each instance would listen to the faults of the whole process; what it adds is taken
 * away again.
 */
export function loadLazPerf(): Promise<LazPerf> {
  const before = EVENTS.map((event) => process.listeners(event as 'uncaughtException'));
  const loading = createLazPerf();
  EVENTS.forEach((event, i) => {
    for (const listener of process.listeners(event as 'uncaughtException')) if (!before[i]!.includes(listener)) process.removeListener(event, listener);
  });
  return loading;
}
