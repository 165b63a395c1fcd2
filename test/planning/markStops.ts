import { decide, type Command } from '../../src/greenhouse/decide.ts';
import { evolve } from '../../src/greenhouse/evolve.ts';
import type { GreenhouseEvent } from '../../src/greenhouse/events.ts';
import type { GreenhouseState } from '../../src/greenhouse/state.ts';
import type { MorningPlan } from '../../src/planning/morningPlan.ts';

/** What a command makes of the state, by the real rules; hashes and ids are of no account here. */
function act(state: GreenhouseState, command: Command, at: string): GreenhouseState {
  const outcome = decide(state, command, at);
  if (!outcome.ok) throw new Error(outcome.refusals.map(({ message }) => message).join(' '));
  return outcome.value.reduce((now, draft) => evolve(now, { ...draft, id: '', sequence: now.sequence + 1, recordedAt: at, previousHash: '', hash: '' } as GreenhouseEvent), state);
}

export const approve = (state: GreenhouseState, plan: MorningPlan, by = 'mirel'): GreenhouseState =>
  act(state, { do: 'approve-plan', plan: { planId: plan.planId, at: plan.at, approvedBy: by, upToSequence: plan.upToSequence, visits: plan.visits.map(({ approved }) => approved) } }, plan.at);

export const markDone = (state: GreenhouseState, plan: MorningPlan, visit: string, stop: number, at: string): GreenhouseState =>
  act(state, { do: 'mark-stop', planId: plan.planId, visit, stop, by: 'tove', result: 'done' }, at);

export const markFailed = (state: GreenhouseState, plan: MorningPlan, visit: string, stop: number, at: string, reason = 'pump stopped'): GreenhouseState =>
  act(state, { do: 'mark-stop', planId: plan.planId, visit, stop, by: 'tove', result: 'failed', reason }, at);
