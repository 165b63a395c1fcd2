import { Worker } from 'node:worker_threads';
import type { JobShopProblem } from '../../planning/jobShop/jobShopProblem.ts';
import { LANES } from '../../planning/jobShop/searchLane.ts';
import { modelShop, type ShopModel } from '../../planning/jobShop/shopModel.ts';
import { runRounds } from '../../planning/jobShop/solveShop.ts';
import type { ShopPlan } from '../../planning/jobShop/shopPlan.ts';
import { shopRounds, type LaneNews, type ShopRounds } from '../../planning/jobShop/shopRounds.ts';
import { writeShopPlan } from '../../planning/jobShop/writeShopPlan.ts';
import type { LaneStart, LaneTask } from './laneTask.ts';

export interface ShopBudget {
  readonly seed: number;
  /** Wall time for the search. */
  readonly seconds: number;
  /** Steps of each lane; Infinity where only the clock counts. */
  readonly iterations: number;
}

/** Rounds that this thread tries alone, since many a small shop is proven before a thread has started, and for so long at most. The threads repeat them. */
const ROUNDS_HERE = 2, HERE_MS = 1000;

/** A thread that has not answered so long after time is up (it may not even have started) is not waited for. */
const GRACE_MS = 150;

/** Plans a job shop with a thread for each lane. What the clock cuts off in the middle of a round still counts where it is better. */
export async function solveInThreads(problem: JobShopProblem, budget: ShopBudget): Promise<ShopPlan> {
  const began = performance.now();
  const model = modelShop(problem);
  const { rounds: few, isOver } = runRounds(model, budget.seed, budget.iterations, ROUNDS_HERE, () => performance.now() - began > Math.min(HERE_MS, 1000 * budget.seconds));
  const rounds = isOver ? few : await runThreads(model, budget, few.boundTicks(), 1000 * budget.seconds - (performance.now() - began));
  const [best, bound] = [rounds.best() ?? few.best(), Math.max(few.boundTicks(), rounds.boundTicks())];
  return writeShopPlan(problem, model, best, bound);
}

async function runThreads(model: ShopModel, { seed, iterations }: ShopBudget, boundTicks: number, milliseconds: number): Promise<ShopRounds> {
  const rounds = shopRounds(model, iterations, boundTicks);
  const stop = new Int32Array(new SharedArrayBuffer(4));
  const threads = Array.from({ length: LANES }, (_, lane) => startThread({ model, seed, lane, stop }));
  let lateTimer: NodeJS.Timeout | undefined;
  const isLate = new Promise<undefined>((resolve) => { lateTimer = setTimeout(() => resolve(undefined), Math.min(2 ** 31 - 1, Math.max(0, milliseconds) + GRACE_MS)); });
  const timer = setTimeout(() => { Atomics.store(stop, 0, 1); }, Math.max(0, milliseconds));
  try {
    for (let steps = rounds.nextSteps(); steps > 0; steps = rounds.nextSteps()) {
      const task: LaneTask = { steps, bestTicks: rounds.bestTicks() };
      const news = await Promise.race([Promise.all(threads.map((thread) => askThread(thread, task))), isLate]);
      if (news === undefined) break;
      rounds.gather(news);
      if (Atomics.load(stop, 0) === 1) break;
    }
  } finally {
    clearTimeout(timer);
    clearTimeout(lateTimer);
    await Promise.all(threads.map((thread) => thread.terminate()));
  }
  return rounds;
}

function askThread(thread: Worker, task: LaneTask): Promise<LaneNews> {
  return new Promise((resolve, reject) => {
    thread.once('message', (news: LaneNews) => { thread.off('error', reject); resolve(news); });
    thread.once('error', reject);
    thread.postMessage(task, []);
  });
}

/** From the built program the module runs as it is; from the sources (tests, development) a loader for TypeScript goes before it. */
function startThread(start: LaneStart): Worker {
  const settings = { workerData: start, name: `lane ${start.lane}`, execArgv: [] };
  if (!import.meta.url.endsWith('.ts')) return new Worker(new URL('laneWorker.js', import.meta.url), settings);
  const entry = new URL('laneWorker.ts', import.meta.url).href;
  return new Worker(`import('tsx/esm/api').then(({ register }) => { register(); return import(${JSON.stringify(entry)}); })`, { ...settings, eval: true });
}
