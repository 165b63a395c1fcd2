import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { PlanInputs, PlannedDay } from '../../planning/planMorning.ts';
import type { PlanMaker } from '../openGreenhouse.ts';
import { openPlanThread } from './planThread.ts';

/** Where the inputs of a plan come from. */
export interface PlanGround {
  readonly state: () => GreenhouseState;
  /** The state as it was after an earlier event. */
  readonly stateUpTo: (sequence: number) => Promise<GreenhouseState>;
  /** Readings of basins, tanks and bays of the weeks before an instant. */
  readonly readingsBefore: (at: string) => Promise<readonly Reading[]>;
}

/** What the planning thread is asked: a plan, or what one more of anything would be worth to a plan that it made lately. */
export type PlanAsked = { readonly asks: 'plan'; readonly of: PlanInputs } | { readonly asks: 'worth'; readonly planId: string };
export type PlanAnswered = PlannedDay | { readonly worth: readonly string[] | undefined };

/** Plans in a thread of its own from what the greenhouse knows at the moment of asking. */
export function openPlanMaker(ground: PlanGround): PlanMaker {
  const here = import.meta.url;
  const thread = openPlanThread<PlanAsked, PlanAnswered>(new URL(here.endsWith('.ts') ? './planWorker.ts' : './planWorker.js', here));
  return {
    async make({ at, upToSequence, pins = [] }, onProgress) {
      const state = upToSequence === undefined ? ground.state() : await ground.stateUpTo(upToSequence);
      const readings = await ground.readingsBefore(at);
      const outcome = await thread.plan({ asks: 'plan', of: { state, readings, at, pins } }, onProgress);
      if (!outcome.ok) return outcome;
      if ('worth' in outcome.value) throw new Error('the planning thread answers another question');
      return { ...outcome, value: outcome.value };
    },
    async worth(planId) {
      const outcome = await thread.plan({ asks: 'worth', planId }, () => undefined);
      return outcome.ok && 'worth' in outcome.value ? outcome.value.worth : undefined;
    },
    close: thread.close,
  };
}
