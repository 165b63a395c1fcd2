import { dualBound } from '../dualBound.ts';
import type { LinearModel, LinearSolver } from '../linearModel.ts';
import type { PoolingBox } from './poolingBox.ts';
import type { PoolingProblem } from './poolingProblem.ts';
import { relaxPooling } from './poolingRelaxation.ts';

/**
 * Optimality-based bound tightening: how small and how large each share and flow can be in any answer at least as cheap as
 * `cost` (Quesada & Grossmann 1995; Gleixner et al. 2017). Absent where no such answer exists.
 */
export function tightenBox(problem: PoolingProblem, box: PoolingBox, cost: number, solver: LinearSolver): PoolingBox | undefined {
  const tight: PoolingBox = { shareLow: box.shareLow.slice(), shareHigh: box.shareHigh.slice(), flowLow: box.flowLow.slice(), flowHigh: box.flowHigh.slice() };
  const parts = [[tight.shareLow, tight.shareHigh, 0], [tight.flowLow, tight.flowHigh, problem.intoPool.length]] as const;
  for (const [low, high, first] of parts) {
    for (let i = 0; i < low.length; i += 1) {
      if (high[i]! - low[i]! < 1e-9) continue;
      const model = withCutoff(relaxPooling(problem, tight), cost);
      const least = extreme(model, first + i, 1, solver);
      const most = extreme(model, first + i, -1, solver);
      if (least === 'infeasible' || most === 'infeasible') return undefined;
      low[i] = Math.max(low[i]!, Math.min(least, high[i]!));
      high[i] = Math.min(high[i]!, Math.max(-most, low[i]!));
    }
  }
  return tight;
}

/** The relaxation with its cost as a row, so that a column can be the objective. */
function withCutoff({ columns, rows }: LinearModel, cost: number): LinearModel {
  const size = Math.max(...columns.map((column) => Math.abs(column.cost)), 1e-12);
  const room = 1e-9 * Math.max(1, Math.abs(cost));
  const entries = columns.flatMap((column, j): [number, number][] => (column.cost === 0 ? [] : [[j, column.cost / size]]));
  return { columns: columns.map((column) => ({ ...column, cost: 0 })), rows: [...rows, { lower: -Infinity, upper: (cost + room) / size, entries }] };
}

function extreme({ columns, rows }: LinearModel, column: number, sign: 1 | -1, solver: LinearSolver): number | 'infeasible' {
  const model: LinearModel = { columns: columns.map((is, j) => (j === column ? { ...is, cost: sign } : is)), rows };
  const solved = solver.solve(model);
  if (solved.status === 'infeasible') return 'infeasible';
  return solved.status === 'optimal' ? dualBound(model, solved.rowDual) : -Infinity;
}
