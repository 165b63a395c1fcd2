import { Worker } from 'node:worker_threads';
import type { Outcome } from '../../science/refusal.ts';
import { FailedWorld } from '../http/answers.ts';

/** What the thread is asked and what it says back. */
export interface PlanTask<Inputs> { readonly task: number; readonly inputs: Inputs }
export type PlanNews<Plan> =
  | { readonly task: number; readonly news: 'progress'; readonly step: string; readonly share: number }
  | { readonly task: number; readonly news: 'planned'; readonly outcome: Outcome<Plan> }
  | { readonly task: number; readonly news: 'broke'; readonly message: string };

export interface PlanThread<Inputs, Plan> {
  readonly plan: (inputs: Inputs, onProgress: (step: string, share: number) => void) => Promise<Outcome<Plan>>;
  readonly close: () => Promise<void>;
}

export interface ThreadWords { readonly fault: string; readonly brokeOff: string; readonly mistake: string }
const PLANNING: ThreadWords = { fault: 'planning', brokeOff: 'Planning broke off unexpectedly. The plan shown is the last good one.', mistake: 'Planning made a mistake; nothing was changed. The log of the desk says more.' };

interface Waiting<Plan> {
  readonly onProgress: (step: string, share: number) => void;
  readonly resolve: (outcome: Outcome<Plan>) => void;
  readonly reject: (error: Error) => void;
}

/**
 * A thread that computes plans, or other heavy things, so that the desk goes on answering meanwhile. It starts at once, and again when it
 * has died; whoever waited for it then hears of a fault. `entry` is the module that the thread runs, `words` what a fault says of it.
 */
export function openPlanThread<Inputs, Plan>(entry: URL, words: ThreadWords = PLANNING): PlanThread<Inputs, Plan> {
  const waiting = new Map<number, Waiting<Plan>>();
  let lastTask = 0;
  let closed = false;
  let worker: Worker | undefined = start();

  return {
    plan(inputs, onProgress) {
      worker ??= start();
      lastTask += 1;
      const task = lastTask;
      return new Promise((resolve, reject) => {
        waiting.set(task, { onProgress, resolve, reject });
        const question: PlanTask<Inputs> = { task, inputs };
        worker!.postMessage(question, []);
      });
    },
    async close() {
      closed = true;
      await worker?.terminate();
    },
  };

  function start(): Worker {
    const thread = startThread(entry, words.fault);
    let cause: unknown;
    thread.unref();
    thread.on('message', hear);
    thread.on('error', (error) => { cause = error; });
    thread.on('exit', () => {
      worker = undefined;
      const message = closed ? 'The desk is closing.' : words.brokeOff;
      for (const { reject } of waiting.values()) reject(new FailedWorld({ fault: words.fault, message, retryHelps: !closed }, cause));
      waiting.clear();
    });
    return thread;
  }

  function hear(news: PlanNews<Plan>): void {
    const who = waiting.get(news.task);
    if (who === undefined) return;
    if (news.news === 'progress') { who.onProgress(news.step, news.share); return; }
    waiting.delete(news.task);
    if (news.news === 'planned') who.resolve(news.outcome);
    else who.reject(new FailedWorld({ fault: words.fault, message: words.mistake, retryHelps: false }, news.message));
  }
}

/** From the built program the module runs as it is; from the sources (tests, development) a loader for TypeScript goes before it. */
function startThread(entry: URL, name: string): Worker {
  if (!entry.pathname.endsWith('.ts')) return new Worker(entry, { name, execArgv: [] });
  const loader = `import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(entry.href)}); })`;
  return new Worker(loader, { eval: true, name, execArgv: [] });
}
