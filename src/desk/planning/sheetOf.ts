import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { MorningPlan, PlannedVisit } from '../../planning/morningPlan.ts';
import type { PlanSheet, SheetVisit, StopOutcomeView } from '../contract.ts';

/** The part of a plan that the floor works from. */
export function sheetOf(plan: MorningPlan): PlanSheet {
  const { basins: _basins, lots: _lots, orders: _orders, needs: _needs, sources: _sources, tanks: _tanks, waterAccount: _waterAccount, week: _week, actions: _actions, season: _season, visits, ...sheet } = plan;
  return { ...sheet, visits: visits.map(sheetVisitOf) };
}

export function sheetVisitOf({ approved: _approved, ...visit }: PlannedVisit): SheetVisit {
  return visit;
}

/** What was marked of one plan, by "visit/stop". */
export function outcomesOf(state: GreenhouseState, planId: string): Readonly<Record<string, StopOutcomeView>> {
  const prefix = `${planId}/`;
  return Object.fromEntries(Object.entries(state.outcomes)
    .filter(([key]) => key.startsWith(prefix))
    .map(([key, { event: _event, ...outcome }]) => [key.slice(prefix.length), outcome]));
}
