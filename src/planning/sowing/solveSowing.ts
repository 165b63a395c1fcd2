import type { LinearSolution, LinearSolver } from '../solver/linearModel.ts';
import { buildSowingModel, type SowingModel } from './sowingModel.ts';
import type { SowingProblem } from './sowingProblem.ts';

export interface SolveSowingSettings {
  /** Stop when no plan can be cheaper by more than this share. */
  readonly relativeGap: number;
  readonly maxNodes: number;
  /** Sowings of so many days from the first count the basins of every stage whole. */
  readonly wholeStagesDays: number;
}

export const SOLVE_SOWING: SolveSowingSettings = { relativeGap: 0.01, maxNodes: 400, wholeStagesDays: 28 };

export interface SolvedSowing {
  readonly built: SowingModel;
  readonly solution: LinearSolution;
  /** Cost from the first day on, standing lots included, and a lower bound on the cost of every plan. */
  readonly cost: number;
  readonly bound: number;
  readonly gap: number;
}

/** Solves the programme to the gap asked for. Throws where the solver gives nothing: every such problem has a plan (all short). */
export function solveSowing(problem: SowingProblem, solver: LinearSolver, settings: SolveSowingSettings = SOLVE_SOWING): SolvedSowing {
  const built = buildSowingModel(problem, { whole: true, wholeStagesUntilDay: settings.wholeStagesDays });
  const solution = solver.solve(built.model, { relativeGap: settings.relativeGap, maxNodes: settings.maxNodes });
  if (solution.status !== 'optimal' && solution.status !== 'stopped') throw new Error(`the sowing programme is ${solution.status}`);
  const cost = solution.objective + built.fixedCost;
  const bound = Math.min(cost, solution.bound + built.fixedCost);
  return { built, solution, cost, bound, gap: cost <= 1e-9 ? 0 : (cost - bound) / cost };
}

/** The linear relaxation: what resources are worth is read from it. */
export function relaxSowing(problem: SowingProblem, solver: LinearSolver): { readonly built: SowingModel; readonly solution: LinearSolution } {
  const built = buildSowingModel(problem, { whole: false, wholeStagesUntilDay: 0 });
  const solution = solver.solve(built.model);
  if (solution.status !== 'optimal') throw new Error(`the relaxed sowing programme is ${solution.status}`);
  return { built, solution };
}
