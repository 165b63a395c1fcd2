import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { PlanInputs } from '../../planning/planMorning.ts';
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

/** Plans in a thread of its own from what the greenhouse knows at the moment of asking. */
export function openPlanMaker(ground: PlanGround): PlanMaker {
  const here = import.meta.url;
  const thread = openPlanThread<PlanInputs, MorningPlan>(new URL(here.endsWith('.ts') ? './planWorker.ts' : './planWorker.js', here));
  return {
    async make({ at, upToSequence }, onProgress) {
      const state = upToSequence === undefined ? ground.state() : await ground.stateUpTo(upToSequence);
      const readings = await ground.readingsBefore(at);
      return thread.plan({ state, readings, at }, onProgress);
    },
    close: thread.close,
  };
}
