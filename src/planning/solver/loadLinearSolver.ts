import highsModule, { type Highs, type Model, type ModelData } from 'highs';
import { assertSoundModel, type LinearBasis, type LinearModel, type LinearSolution, type LinearSolver, type SolveLimits } from './linearModel.ts';

/** Coefficients below this are dropped: mixed with large ones they make the solver unsafe. */
const SMALLEST_COEFFICIENT = 1e-9;
/** From a start near the optimum the primal method is the quicker one. */
const PRIMAL_SIMPLEX = 4;
const DOMAIN_CODE = { continuous: 0, integer: 1, semicontinuous: 2 } as const;

/** The package's types describe its CommonJS form; what is imported here is the function itself. */
const loadHighs = highsModule as unknown as () => Promise<Highs>;

let loading: Promise<LinearSolver> | undefined;

/**
 * Loads the HiGHS solver (WebAssembly, one thread) once and warms it up. The only asynchronous step of planning:
 * everything after it is synchronous and gives the same answer for the same model.
 */
export async function loadLinearSolver(): Promise<LinearSolver> {
  loading ??= loadHighs().then(wrapHighs);
  return loading;
}

function wrapHighs(highs: Highs): LinearSolver {
  const solver: LinearSolver = {
    name: 'HiGHS',
    version: highs.version.string,
    solve: (model, limits = {}, start = undefined) => solveOnce(highs, model, limits, start),
  };
  solver.solve({ columns: [{ cost: 1, lower: 0, upper: 1 }], rows: [{ lower: 0.5, upper: Infinity, entries: [[0, 1]] }] });
  return solver;
}

function solveOnce(highs: Highs, model: LinearModel, limits: SolveLimits, start: LinearBasis | undefined): LinearSolution {
  assertSoundModel(model);
  if (model.columns.length === 0) return nothingToDecide(model);
  const isMixed = model.columns.some((column) => (column.domain ?? 'continuous') !== 'continuous');
  return highs.withModel(toHighs(highs, model, isMixed), (running) => {
    running.options.set({
      output_flag: false, random_seed: 0,
      // Presolve costs more than it saves on blends, which are short rows already.
      presolve: isMixed ? 'on' : 'off',
      ...(start === undefined ? {} : { simplex_strategy: PRIMAL_SIMPLEX }),
      ...(isMixed ? { mip_rel_gap: limits.relativeGap ?? 1e-6, mip_max_nodes: limits.maxNodes ?? 5000 } : {}),
    });
    if (start !== undefined) running.setBasis({ colStatus: start.columnStatus, rowStatus: start.rowStatus });
    return readSolution(highs, running, running.run().modelStatus, isMixed);
  });
}

/** The solver takes no model without columns: every row is zero, and holds or does not. */
function nothingToDecide({ rows }: LinearModel): LinearSolution {
  const holds = rows.every(({ lower, upper }) => lower <= 0 && upper >= 0);
  return { status: holds ? 'optimal' : 'infeasible', objective: 0, bound: 0, columnValue: new Float64Array(), rowValue: new Float64Array(rows.length), rowDual: new Float64Array(rows.length) };
}

function toHighs(highs: Highs, model: LinearModel, isMixed: boolean): ModelData {
  const finite = (value: number) => (value === Infinity ? highs.infinity : value === -Infinity ? -highs.infinity : value);
  const matrix = packRows(model);
  return {
    numCols: model.columns.length, numRows: model.rows.length,
    colCost: Float64Array.from(model.columns, (column) => column.cost),
    colLower: Float64Array.from(model.columns, (column) => column.lower),
    colUpper: Float64Array.from(model.columns, (column) => column.upper),
    rowLower: Float64Array.from(model.rows, (row) => finite(row.lower)),
    rowUpper: Float64Array.from(model.rows, (row) => finite(row.upper)),
    matrix: { format: 'csr', numRows: model.rows.length, numCols: model.columns.length, ...matrix },
    ...(isMixed ? { integrality: Int32Array.from(model.columns, (column) => DOMAIN_CODE[column.domain ?? 'continuous']) } : {}),
  };
}

function packRows(model: LinearModel): { starts: Int32Array; indices: Int32Array; values: Float64Array } {
  const most = model.rows.reduce((sum, row) => sum + row.entries.length, 0);
  const starts = new Int32Array(model.rows.length + 1);
  const indices = new Int32Array(most);
  const values = new Float64Array(most);
  let at = 0;
  model.rows.forEach((row, i) => {
    for (const [j, coefficient] of row.entries) {
      if (Math.abs(coefficient) < SMALLEST_COEFFICIENT) continue;
      indices[at] = j;
      values[at++] = coefficient;
    }
    starts[i + 1] = at;
  });
  return { starts, indices: indices.subarray(0, at), values: values.subarray(0, at) };
}

function readSolution(highs: Highs, running: Model, code: number, isMixed: boolean): LinearSolution {
  const { optimal, empty, infeasible, unboundedOrInfeasible, unbounded } = highs.constants.modelStatus;
  const solved = code === optimal || code === empty;
  const status = solved ? 'optimal' : code === infeasible ? 'infeasible'
    : code === unbounded || code === unboundedOrInfeasible ? 'unbounded' : 'stopped';
  const { colValue, rowValue, rowDual } = running.getSolution();
  const objective = running.getObjectiveValue();
  const basis = code === optimal && !isMixed ? running.getBasis() : undefined;
  return {
    status, objective,
    bound: isMixed ? Number(running.info.get('mip_dual_bound')) : objective,
    columnValue: colValue, rowValue, rowDual: isMixed ? new Float64Array(rowDual.length) : rowDual,
    ...(basis === undefined ? {} : { basis: { columnStatus: basis.colStatus, rowStatus: basis.rowStatus } }),
  };
}
