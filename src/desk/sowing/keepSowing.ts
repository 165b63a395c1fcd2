import { localDate } from '../../planning/day/shiftDay.ts';
import { compareSowing, type SowingChanges } from '../../planning/sowing/compareSowing.ts';
import type { SowingInputs } from '../../planning/sowing/planSowing.ts';
import type { SowingPlan } from '../../planning/sowing/sowingPlan.ts';
import { inputsIf, type SowingWhatIf } from '../../planning/sowing/whatIf.ts';
import type { Outcome } from '../../science/refusal.ts';
import { RefusedRequest } from '../http/answers.ts';
import type { PlanGround } from '../planning/openPlanMaker.ts';
import { openPlanThread, type PlanThread } from '../planning/planThread.ts';

/** The sowing plan of the day, computed when it is first asked for and again when the journal has grown or the day has changed. */
export interface SowingDesk {
  readonly plan: (at: string) => Promise<SowingPlan>;
  readonly whatIf: (at: string, question: SowingWhatIf) => Promise<SowingChanges>;
  readonly close: () => Promise<void>;
}

/** Plans in a thread of its own that starts with the first question. */
export function keepSowing(ground: PlanGround): SowingDesk {
  const here = import.meta.url;
  let thread: PlanThread<SowingInputs, SowingPlan> | undefined;
  let kept: { readonly key: string; readonly plan: Promise<SowingPlan> } | undefined;
  const compute = async (inputs: SowingInputs): Promise<SowingPlan> => {
    thread ??= openPlanThread(new URL(here.endsWith('.ts') ? './sowingWorker.ts' : './sowingWorker.js', here));
    return planOf(await thread.plan(inputs, () => undefined));
  };
  const plan = (at: string): Promise<SowingPlan> => {
    const state = ground.state();
    const key = `${state.sequence} ${localDate(Date.parse(at), state.file?.location.timeZone ?? 'UTC')}`;
    if (kept?.key !== key) {
      const made = inputsNow(ground, at).then(compute);
      kept = { key, plan: made };
      made.catch(() => { if (kept?.plan === made) kept = undefined; });
    }
    return kept.plan;
  };
  return {
    plan,
    async whatIf(at, question) {
      const asked = inputsIf(await inputsNow(ground, at), question);
      if (!asked.ok) throw new RefusedRequest(asked.refusals);
      const before = await plan(at);
      return compareSowing(before, await compute(asked.value));
    },
    close: async () => { await thread?.close(); },
  };
}

const inputsNow = async (ground: PlanGround, at: string): Promise<SowingInputs> => ({ state: ground.state(), readings: await ground.readingsBefore(at), at });

function planOf(outcome: Outcome<SowingPlan>): SowingPlan {
  if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
  return outcome.value;
}
