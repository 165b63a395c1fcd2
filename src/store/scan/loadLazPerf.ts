import type { LazPerf } from 'laz-perf';

const EVENTS = ['uncaughtException', 'unhandledRejection'] as const;

/**
 * A fresh instance of the library that unpacks LAZ (laz-perf, Apache-2.0, WebAssembly). One for each file: a damaged file may leave it
 * unusable. The only asynchronous step of reading. Each instance would listen to the faults of the whole process; what it adds is taken
 * away again.
 */
export async function loadLazPerf(): Promise<LazPerf> {
  const { createLazPerf } = await import('laz-perf');
  const before = EVENTS.map((event) => process.rawListeners(event));
  const loading = createLazPerf();
  EVENTS.forEach((event, i) => {
    for (const listener of process.rawListeners(event)) if (!before[i]!.includes(listener)) process.removeListener(event, listener as () => void);
  });
  return loading;
}
