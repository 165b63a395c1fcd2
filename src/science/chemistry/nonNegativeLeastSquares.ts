/**
 * The x >= 0 that makes |A x - b| smallest, and exactly zero wherever that is possible. Lawson & Hanson 1974, chapter 23.
 * `columns[j]` is column j of A, all of the length of b. Small dense problems (tens of columns). Deterministic.
 * Throws when it does not end, which for finite input it always does.
 */
export function solveNonNegative(columns: readonly (readonly number[])[], b: readonly number[]): number[] {
  const x = columns.map(() => 0);
  const free = new Set<number>();
  const scale = Math.max(1e-300, ...b.map(Math.abs));
  for (let round = 0; round < 10 * columns.length + 10; round += 1) {
    const next = steepest(columns, residual(columns, x, b), free, scale);
    if (next === undefined) return x;
    free.add(next);
    while (!settle(columns, b, x, free)) if (free.size === 0) break;
  }
  throw new Error('non-negative least squares did not end');
}

function residual(columns: readonly (readonly number[])[], x: readonly number[], b: readonly number[]): number[] {
  return b.map((value, i) => columns.reduce((rest, column, j) => rest - column[i]! * x[j]!, value));
}

/** The bound variable whose increase lowers the residual fastest; none when the residual cannot be lowered. */
function steepest(columns: readonly (readonly number[])[], rest: readonly number[], free: ReadonlySet<number>, scale: number): number | undefined {
  let best: number | undefined;
  let bestGain = 1e-10 * scale;
  columns.forEach((column, j) => {
    const length = Math.sqrt(dot(column, column));
    const gain = free.has(j) || length === 0 ? 0 : dot(column, rest) / length;
    if (gain > bestGain) [best, bestGain] = [j, gain];
  });
  return best;
}

/** Moves the free variables to their least-squares values; stops at the first that would turn negative, binds it, and says false. */
function settle(columns: readonly (readonly number[])[], b: readonly number[], x: number[], free: Set<number>): boolean {
  const places = [...free];
  const goal = leastSquares(places.map((j) => columns[j]!), b);
  if (goal === undefined) { const last = places.at(-1)!; free.delete(last); x[last] = 0; return true; }
  const steps = places.map((j, k) => (goal[k]! > 0 ? 1 : shareUntilZero(x[j]!, goal[k]!)));
  const step = Math.min(1, ...steps);
  places.forEach((j, k) => { x[j] = x[j]! + step * (goal[k]! - x[j]!); });
  if (step === 1) return true;
  places.forEach((j, k) => { if (goal[k]! <= 0 && steps[k] === step) { free.delete(j); x[j] = 0; } });
  return false;
}

/** How much of the way from a value to a goal at or below zero may be gone. */
const shareUntilZero = (from: number, goal: number): number => (from > 0 ? from / (from - goal) : 0);

/** Least squares by Gram-Schmidt with one repetition; none when the columns depend on each other. */
function leastSquares(columns: readonly (readonly number[])[], b: readonly number[]): number[] | undefined {
  const basis: number[][] = [];
  const upper: number[][] = [];
  for (const column of columns) {
    const vector = [...column];
    const row = basis.map(() => 0);
    for (let pass = 0; pass < 2; pass += 1) basis.forEach((unit, k) => {
      const part = dot(unit, vector);
      row[k]! += part;
      unit.forEach((value, i) => { vector[i]! -= part * value; });
    });
    const length = Math.sqrt(dot(vector, vector));
    if (length < 1e-11 * Math.sqrt(dot(column, column))) return undefined;
    basis.push(vector.map((value) => value / length));
    upper.push([...row, length]);
  }
  const solution = basis.map((unit) => dot(unit, b));
  for (let j = basis.length - 1; j >= 0; j -= 1) {
    for (let k = j + 1; k < basis.length; k += 1) solution[j]! -= upper[k]![j]! * solution[k]!;
    solution[j]! /= upper[j]![j]!;
  }
  return solution;
}

function dot(a: readonly number[], b: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < a.length; i += 1) sum += a[i]! * b[i]!;
  return sum;
}
