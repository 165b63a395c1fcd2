/**
 * A year of sowing for 12 crops and 600 basins, invented with a fixed seed: how long the plan takes and how near it is to the
 * proven optimum. Run: npx tsx bench/sowing.ts
 */
import { loadLinearSolver } from '../src/planning/solver/loadLinearSolver.ts';
import { solveSowing, SOLVE_SOWING } from '../src/planning/sowing/solveSowing.ts';
import { inventSowing } from './inventSowing.ts';

async function measure(): Promise<void> {
  const solver = await loadLinearSolver();
  for (const sowingsPerWeek of [1, 2]) {
    for (const seed of [1, 2, 3]) {
      const problem = inventSowing({ seed, weeks: 52, crops: 12, basins: 600, sowingsPerWeek });
      const begun = performance.now();
      const { built, cost, bound, gap, solution } = solveSowing(problem, solver, SOLVE_SOWING);
      const seconds = (performance.now() - begun) / 1000;
      const whole = built.model.columns.filter(({ domain }) => domain === 'integer').length;
      const short = built.shortColumn.reduce((sum, column) => sum + solution.columnValue[column]!, 0);
      const wanted = problem.demand.reduce((sum, { orderedUnits }) => sum + orderedUnits, 0);
      const glass = problem.places.find(({ kind }) => kind === 'glass')!;
      const full = [...built.capacityRow].filter(([key, row]) => key.startsWith('glass/') && solution.rowValue[row]! > 0.995 * glass.usableBasins).length;
      console.log(`${sowingsPerWeek} a week, seed ${seed}: ${built.model.columns.length} columns (${whole} whole), ${built.model.rows.length} rows; cost ${cost.toFixed(0)}, bound ${bound.toFixed(0)}, gap ${(100 * gap).toFixed(2)} %, ${solution.status}; ${seconds.toFixed(1)} s; short ${((100 * short) / wanted).toFixed(1)} % of ${wanted} units; glass full in ${full} of ${problem.blocks.length} spans`);
    }
  }
}

void measure();
