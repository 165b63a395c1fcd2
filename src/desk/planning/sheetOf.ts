import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { PlanSheet, StopOutcomeView } from '../contract.ts';

/** The part of a plan that the floor works from. */
export function sheetOf(plan: MorningPlan): PlanSheet {
  const { basins: _basins, lots: _lots, orders: _orders, needs: _needs, sources: _sources, ...sheet } = plan;
  return sheet;
}

/** What was marked of one plan, by "visit/stop". */
export function outcomesOf(state: GreenhouseState, planId: string): Readonly<Record<string, StopOutcomeView>> {
  const prefix = `${planId}/`;
  return Object.fromEntries(Object.entries(state.outcomes)
    .filter(([key]) => key.startsWith(prefix))
    .map(([key, outcome]) => [key.slice(prefix.length), outcome]));
}
