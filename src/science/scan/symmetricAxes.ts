import type { Vector } from './rigidTransform.ts';

/** Eigenvalues, largest first, and unit eigenvectors of a symmetric 3 x 3 matrix [xx, xy, xz, yy, yz, zz] (Jacobi turns; Golub & Van Loan, ch. 8.5). */
export function symmetricAxes(matrix: readonly number[]): readonly { readonly value: number; readonly axis: Vector }[] {
  const [xx, xy, xz, yy, yz, zz] = matrix as [number, number, number, number, number, number];
  const a = [[xx, xy, xz], [xy, yy, yz], [xz, yz, zz]];
  const v = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
  for (let sweep = 0; sweep < 30; sweep += 1) for (const [p, q] of [[0, 1], [0, 2], [1, 2]] as const) turn(a, v, p, q);
  return [0, 1, 2].map((k) => ({ value: a[k]![k]!, axis: [v[0]![k]!, v[1]![k]!, v[2]![k]!] as Vector })).sort((one, other) => other.value - one.value);
}

function turn(a: number[][], v: number[][], p: number, q: number): void {
  const off = a[p]![q]!;
  if (off === 0) return;
  const theta = (a[q]![q]! - a[p]![p]!) / (2 * off);
  const t = (theta >= 0 ? 1 : -1) / (Math.abs(theta) + Math.hypot(theta, 1));
  const c = 1 / Math.hypot(t, 1), s = t * c;
  for (let k = 0; k < 3; k += 1) [a[k]![p], a[k]![q]] = [c * a[k]![p]! - s * a[k]![q]!, s * a[k]![p]! + c * a[k]![q]!];
  for (let k = 0; k < 3; k += 1) [a[p]![k], a[q]![k]] = [c * a[p]![k]! - s * a[q]![k]!, s * a[p]![k]! + c * a[q]![k]!];
  for (let k = 0; k < 3; k += 1) [v[k]![p], v[k]![q]] = [c * v[k]![p]! - s * v[k]![q]!, s * v[k]![p]! + c * v[k]![q]!];
}
