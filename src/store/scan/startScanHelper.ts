import { Worker } from 'node:worker_threads';
import { accepted, type Outcome } from '../../science/refusal.ts';
import { fieldBytes } from '../../science/scan/heightField.ts';
import type { FillTask } from './fillPieces.ts';

/** A task, and where the numbers of the filled field are to be laid. */
export interface HelperTask { readonly task: FillTask; readonly numbers: Int32Array }

/** A thread that fills a height field beside the caller's own. */
export interface ScanHelper {
  /** The numbers stand in memory that both threads share; valid until the next task. */
  fill(task: FillTask): Promise<Outcome<{ readonly numbers: Int32Array; readonly inside: number }>>;
  stop(): Promise<void>;
}

/** Starts the helper; undefined where the program runs from its sources, which a thread cannot load. One task at a time. */
export function startScanHelper(): ScanHelper | undefined {
  if (import.meta.url.endsWith('.ts')) return undefined;
  const worker = new Worker(new URL('./scanHelperThread.js', import.meta.url));
  worker.unref();
  let shared = new SharedArrayBuffer(0);
  const fill: ScanHelper['fill'] = (task) => new Promise((resolve, reject) => {
    worker.ref();
    const bytes = fieldBytes(task.grid);
    if (shared.byteLength < bytes) shared = new SharedArrayBuffer(bytes);
    const numbers = new Int32Array(shared, 0, bytes / 4);
    const settle = (act: () => void) => { worker.off('message', done).off('error', failed).off('exit', ended); worker.unref(); act(); };
    const done = (inside: Outcome<number>) => settle(() => resolve(inside.ok ? accepted({ numbers, inside: inside.value }) : inside));
    const failed = (error: unknown) => settle(() => reject(error));
    const ended = () => settle(() => reject(new Error('The helper thread of the scan ended early.')));
    worker.on('message', done).on('error', failed).on('exit', ended);
    // oxlint-disable-next-line unicorn/require-post-message-target-origin -- a worker thread, not a window
    worker.postMessage({ task, numbers } satisfies HelperTask);
  });
  return { fill, stop: async () => { await worker.terminate(); } };
}
