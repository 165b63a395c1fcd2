/**
 * Inverse of a symmetric positive definite matrix, row by row, by Cholesky factors (A.-L. Cholesky; Golub & Van Loan 1996, "Matrix
 * Computations", 4.2). The matrix is overwritten. Undefined when it is not positive definite.
 */
export function invertSymmetric(matrix: Float64Array, n: number): Float64Array | undefined {
  if (!factor(matrix, n)) return undefined;
  const lower = invertLower(matrix, n);
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      let sum = 0;
      for (let k = i; k < n; k += 1) sum += lower[k * n + i]! * lower[k * n + j]!;
      inverse[i * n + j] = sum;
      inverse[j * n + i] = sum;
    }
  }
  return inverse;
}

/** The lower factor replaces the lower half. */
function factor(matrix: Float64Array, n: number): boolean {
  for (let j = 0; j < n; j += 1) {
    for (let i = j; i < n; i += 1) {
      let sum = matrix[i * n + j]!;
      for (let k = 0; k < j; k += 1) sum -= matrix[i * n + k]! * matrix[j * n + k]!;
      if (i === j && !(sum > 0)) return false;
      matrix[i * n + j] = i === j ? Math.sqrt(sum) : sum / matrix[j * n + j]!;
    }
  }
  return true;
}

function invertLower(factors: Float64Array, n: number): Float64Array {
  const inverse = new Float64Array(n * n);
  for (let j = 0; j < n; j += 1) {
    inverse[j * n + j] = 1 / factors[j * n + j]!;
    for (let i = j + 1; i < n; i += 1) {
      let sum = 0;
      for (let k = j; k < i; k += 1) sum -= factors[i * n + k]! * inverse[k * n + j]!;
      inverse[i * n + j] = sum / factors[i * n + i]!;
    }
  }
  return inverse;
}
