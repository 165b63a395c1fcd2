import { parentPort } from 'node:worker_threads';
import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import { planSowing, type SowingInputs } from '../../planning/sowing/planSowing.ts';
import type { SowingPlan } from '../../planning/sowing/sowingPlan.ts';
import type { PlanNews, PlanTask } from '../planning/planThread.ts';

/** The module that the sowing thread runs: one task after another. */
const port = parentPort!;
const tell = (news: PlanNews<SowingPlan>): void => port.postMessage(news);

port.on('message', (task: PlanTask<SowingInputs>) => void work(task));

async function work({ task, inputs }: PlanTask<SowingInputs>): Promise<void> {
  try {
    const outcome = planSowing(inputs, await loadLinearSolver(), { onProgress: (share, step) => tell({ task, news: 'progress', step, share }) });
    tell({ task, news: 'planned', outcome });
  } catch (error) {
    tell({ task, news: 'broke', message: error instanceof Error ? error.stack ?? error.message : String(error) });
  }
}
