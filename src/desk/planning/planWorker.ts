import { parentPort } from 'node:worker_threads';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import { planMorning, type PlanInputs } from '../../planning/planMorning.ts';
import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import type { PlanNews, PlanTask } from './planThread.ts';

/** The module that the planning thread runs: one task after another, with news of each. */
const port = parentPort!;
const tell = (news: PlanNews<MorningPlan>): void => port.postMessage(news);

port.on('message', (task: PlanTask<PlanInputs>) => void work(task));

async function work({ task, inputs }: PlanTask<PlanInputs>): Promise<void> {
  try {
    const solver = await loadLinearSolver();
    const outcome = planMorning(inputs, solver, { onProgress: (share, step) => tell({ task, news: 'progress', step, share }) });
    tell({ task, news: 'planned', outcome });
  } catch (error) {
    tell({ task, news: 'broke', message: error instanceof Error ? error.stack ?? error.message : String(error) });
  }
}
