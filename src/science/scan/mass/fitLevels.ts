import { invertSymmetric } from './invertSymmetric.ts';
import type { MassRow } from './massRow.ts';

/** A regression in which groups of coefficients have a common, unknown variance. */
export interface LevelsFit {
  readonly mean: Float64Array;
  readonly covariance: Float64Array;
  /** Of each group. */
  readonly variances: readonly number[];
  /** Of one row of weight 1 around its expected value. */
  readonly residual: number;
}

/** Prior variances of the coefficients that are common to all: the intercept (ln g) may be anything, slopes lie within a few. */
const COMMON_VARIANCE = 4;
const INTERCEPT_VARIANCE = 25;
/** A group's variance is drawn towards 0.01 (10 % of mass) as if by one more member: groups have few. */
const GROUP_PRIOR = 0.01;
const START = 0.05;
const MOST_ROUNDS = 150;
const TOLERANCE = 1e-5;

/**
 * Fits rows to columns: the first `common` ones, then one for each entry of `groups`, which names the group whose variance it has.
 * Variances are those of greatest marginal likelihood, by expectation and maximisation (Dempster, Laird & Rubin 1977, J. R. Stat. Soc. B
 * 39:1-38), so nothing is tuned by hand. Throws when the columns are not numbers.
 */
export function fitLevels(rows: readonly MassRow[], common: number, groups: readonly number[]): LevelsFit {
  const n = common + groups.length;
  const sums = sumRows(rows, n);
  const variances = new Float64Array(Math.max(0, ...groups.map((group) => group + 1))).fill(START);
  let residual = START;
  for (let round = 0; ; round += 1) {
    const { mean, covariance } = solve(sums, n, common, groups, variances, residual);
    if (round === MOST_ROUNDS) return { mean, covariance, variances: [...variances], residual };
    const moved = updateVariances(variances, common, groups, mean, covariance);
    const before = residual;
    residual = expectedSquares(sums, mean, covariance) / rows.length;
    if (moved + Math.abs(residual / before - 1) < TOLERANCE) return { mean, covariance, variances: [...variances], residual };
  }
}

interface Sums { readonly squares: Float64Array; readonly products: Float64Array; readonly target: number }

function sumRows(rows: readonly MassRow[], n: number): Sums {
  const squares = new Float64Array(n * n);
  const products = new Float64Array(n);
  let target = 0;
  for (const { row, lnMass, weight } of rows) {
    target += weight * lnMass * lnMass;
    for (let i = 0; i < n; i += 1) {
      if (row[i] === 0) continue;
      products[i]! += weight * row[i]! * lnMass;
      for (let j = 0; j < n; j += 1) squares[i * n + j]! += weight * row[i]! * row[j]!;
    }
  }
  return { squares, products, target };
}

function solve({ squares, products }: Sums, n: number, common: number, groups: readonly number[], variances: Float64Array, residual: number) {
  const precision = squares.map((value) => value / residual);
  for (let i = 0; i < n; i += 1) precision[i * n + i]! += 1 / (i === 0 ? INTERCEPT_VARIANCE : i < common ? COMMON_VARIANCE : variances[groups[i - common]!]!);
  const covariance = invertSymmetric(precision, n);
  if (covariance === undefined) throw new Error('the precision of the coefficients is not positive definite');
  const mean = new Float64Array(n);
  for (let i = 0; i < n; i += 1) for (let j = 0; j < n; j += 1) mean[i]! += covariance[i * n + j]! * products[j]! / residual;
  return { mean, covariance };
}

/** Returns the largest relative change. */
function updateVariances(variances: Float64Array, common: number, groups: readonly number[], mean: Float64Array, covariance: Float64Array): number {
  const sums = new Float64Array(variances.length).fill(GROUP_PRIOR);
  const members = new Float64Array(variances.length).fill(1);
  groups.forEach((group, k) => {
    const i = common + k;
    sums[group]! += mean[i]! * mean[i]! + covariance[i * mean.length + i]!;
    members[group]! += 1;
  });
  let moved = 0;
  for (let group = 0; group < variances.length; group += 1) {
    const value = sums[group]! / members[group]!;
    moved = Math.max(moved, Math.abs(value / variances[group]! - 1));
    variances[group] = value;
  }
  return moved;
}

/** Expected sum of squared residuals, given the uncertainty of the coefficients. */
function expectedSquares({ squares, products, target }: Sums, mean: Float64Array, covariance: Float64Array): number {
  const n = mean.length;
  let sum = target;
  for (let i = 0; i < n; i += 1) {
    sum -= 2 * mean[i]! * products[i]!;
    for (let j = 0; j < n; j += 1) sum += squares[i * n + j]! * (mean[i]! * mean[j]! + covariance[i * n + j]!);
  }
  return sum;
}
