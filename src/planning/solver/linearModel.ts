/** A linear (or mixed-integer) programme: minimise cost x, lower <= x <= upper, rowLower <= A x <= rowUpper. */
export interface LinearModel {
  readonly columns: readonly LinearColumn[];
  readonly rows: readonly LinearRow[];
}

export interface LinearColumn {
  readonly cost: number;
  readonly lower: number;
  /** Finite, so that a lower bound on the optimum can be computed from any dual vector. */
  readonly upper: number;
  /** 'semicontinuous': either zero or at least `lower`. */
  readonly domain?: 'continuous' | 'integer' | 'semicontinuous';
}

export interface LinearRow {
  /** -Infinity where there is no lower limit. */
  readonly lower: number;
  readonly upper: number;
  /** Column index and coefficient; a column at most once. */
  readonly entries: readonly (readonly [number, number])[];
}

export interface LinearSolution {
  readonly status: 'optimal' | 'infeasible' | 'unbounded' | 'stopped';
  readonly objective: number;
  /** No solution is cheaper than this. Equal to the objective for a solved linear programme. */
  readonly bound: number;
  readonly columnValue: Float64Array;
  readonly rowValue: Float64Array;
  /** Change of the optimum for one unit more of the row's limit. Zero vector for a mixed-integer model. */
  readonly rowDual: Float64Array;
  /** Of a linear programme solved to its optimum. */
  readonly basis?: LinearBasis;
}

/** Where each column and row stands: 0 at its lower limit, 1 basic (anywhere between), 2 at its upper limit. */
export interface LinearBasis {
  readonly columnStatus: Int32Array;
  readonly rowStatus: Int32Array;
}

export interface SolveLimits {
  /** Branch-and-bound nodes at most; a limit in nodes and not in seconds keeps results reproducible. */
  readonly maxNodes?: number;
  readonly relativeGap?: number;
}

/** What the planner needs of a solver; synchronous and deterministic. */
export interface LinearSolver {
  readonly name: string;
  readonly version: string;
  /** `start`: a basis near the optimum of a linear programme, with as many basic columns and rows as the model has rows. */
  solve(model: LinearModel, limits?: SolveLimits, start?: LinearBasis): LinearSolution;
}

/** Throws on a model that no caller may build: NaN, infinite coefficient or bound, a column twice in a row. */
export function assertSoundModel(model: LinearModel): void {
  for (const [j, column] of model.columns.entries()) {
    if (![column.cost, column.lower, column.upper].every(Number.isFinite) || column.lower > column.upper) throw new Error(`column ${j} is unsound: ${JSON.stringify(column)}`);
  }
  // Column j was last seen in row seenIn[j] - 1.
  const seenIn = new Int32Array(model.columns.length);
  for (const [i, row] of model.rows.entries()) {
    if (Number.isNaN(row.lower) || Number.isNaN(row.upper) || row.lower > row.upper) throw new Error(`row ${i} is unsound: ${row.lower}..${row.upper}`);
    for (const [j, coefficient] of row.entries) {
      if (!Number.isFinite(coefficient) || seenIn[j] === undefined || seenIn[j] === i + 1) throw new Error(`row ${i} has an unsound entry for column ${j}`);
      seenIn[j] = i + 1;
    }
  }
}
