import { parentPort } from 'node:worker_threads';
import type { LaidDay } from '../../planning/edit/laidDay.ts';
import { planDay } from '../../planning/planMorning.ts';
import { loadLinearSolver } from '../../planning/solver/loadLinearSolver.ts';
import { worthOfDay } from '../../planning/visits/worthOfDay.ts';
import { accepted, type Outcome } from '../../science/refusal.ts';
import type { PlanAnswered, PlanAsked } from './openPlanMaker.ts';
import type { PlanNews, PlanTask } from './planThread.ts';

/** The module that the planning thread runs: one plan after another, with news of each, and between plans what one more would be worth. */
const port = parentPort!;
const tell = (news: PlanNews<PlanAnswered>): void => port.postMessage(news);
const laidDays = new Map<string, LaidDay>();
let newestPlan = 0;

port.on('message', ({ task, inputs }: PlanTask<PlanAsked>) => {
  if (inputs.asks === 'plan') newestPlan = task;
  answer(task, inputs).then((outcome) => tell({ task, news: 'planned', outcome }), (error: unknown) => tell({ task, news: 'broke', message: error instanceof Error ? error.stack ?? error.message : String(error) }));
});

async function answer(task: number, inputs: PlanAsked): Promise<Outcome<PlanAnswered>> {
  if (inputs.asks === 'worth') return accepted({ worth: await worthUnless(() => newestPlan > task, laidDays.get(inputs.planId)) });
  const outcome = planDay(inputs.of, await loadLinearSolver(), { onProgress: (share, step) => tell({ task, news: 'progress', step, share }) });
  if (outcome.ok) keep(outcome.value.plan.planId, outcome.value.laid);
  return outcome;
}

/** Days that were laid out lately: the approved one, the newest and one more. */
const MOST_KEPT = 3;

function keep(planId: string, laid: LaidDay): void {
  laidDays.delete(planId);
  laidDays.set(planId, laid);
  if (laidDays.size > MOST_KEPT) laidDays.delete(laidDays.keys().next().value!);
}

/** Between one addition and the next it looks whether a plan is wanted; that one goes first. */
async function worthUnless(isUnwanted: () => boolean, laid: LaidDay | undefined): Promise<readonly string[] | undefined> {
  if (laid === undefined) return undefined;
  const sentences: string[] = [];
  const each = worthOfDay(laid);
  for (;;) {
    await new Promise((resolve) => { setImmediate(resolve); });
    if (isUnwanted()) return undefined;
    const next = each.next();
    if (next.done === true) return sentences;
    if (next.value !== undefined) sentences.push(next.value);
  }
}
