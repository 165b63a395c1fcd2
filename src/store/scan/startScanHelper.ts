import { Worker } from 'node:worker_threads';
import type { Outcome } from '../../science/refusal.ts';
import type { FillTask } from './fillPieces.ts';

/** A thread that fills a height field beside the caller's own. */
export interface ScanHelper {
  fill(task: FillTask): Promise<Outcome<{ readonly numbers: Int32Array; readonly inside: number }>>;
  stop(): Promise<void>;
}

/** Starts the helper; undefined where the program runs from its sources, which a thread cannot load. One task at a time. */
export function startScanHelper(): ScanHelper | undefined {
  if (import.meta.url.endsWith('.ts')) return undefined;
  const worker = new Worker(new URL('./scanHelperThread.js', import.meta.url));
  worker.unref();
  const fill: ScanHelper['fill'] = (task) => new Promise((resolve, reject) => {
    worker.ref();
    const settle = (act: () => void) => { worker.off('message', done).off('error', failed).off('exit', ended); worker.unref(); act(); };
    const done = (answer: Awaited<ReturnType<ScanHelper['fill']>>) => settle(() => resolve(answer));
    const failed = (error: unknown) => settle(() => reject(error));
    const ended = () => settle(() => reject(new Error('The helper thread of the scan ended early.')));
    worker.on('message', done).on('error', failed).on('exit', ended);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread, not a window
    worker.postMessage(task);
  });
  return { fill, stop: async () => { await worker.terminate(); } };
}
