/**
 * Solves a small dense system in place by elimination with row exchange; the solution stands in `right`. `matrix` is row by row with
 * `stride` entries a row. False when the matrix is singular.
 */
export function solveSmall(matrix: Float64Array, right: Float64Array, n: number, stride: number): boolean {
  for (let k = 0; k < n; k += 1) {
    let pivot = k;
    for (let i = k + 1; i < n; i += 1) if (Math.abs(matrix[i * stride + k]!) > Math.abs(matrix[pivot * stride + k]!)) pivot = i;
    const value = matrix[pivot * stride + k]!;
    if (!(Math.abs(value) > 1e-300)) return false;
    if (pivot !== k) exchangeRows(matrix, right, k, pivot, n, stride);
    for (let i = k + 1; i < n; i += 1) {
      const factor = matrix[i * stride + k]! / value;
      if (factor === 0) continue;
      for (let j = k; j < n; j += 1) matrix[i * stride + j]! -= factor * matrix[k * stride + j]!;
      right[i]! -= factor * right[k]!;
    }
  }
  for (let k = n - 1; k >= 0; k -= 1) {
    let rest = right[k]!;
    for (let j = k + 1; j < n; j += 1) rest -= matrix[k * stride + j]! * right[j]!;
    right[k] = rest / matrix[k * stride + k]!;
  }
  return true;
}

function exchangeRows(matrix: Float64Array, right: Float64Array, a: number, b: number, n: number, stride: number): void {
  for (let j = 0; j < n; j += 1) {
    const held = matrix[a * stride + j]!;
    matrix[a * stride + j] = matrix[b * stride + j]!;
    matrix[b * stride + j] = held;
  }
  const held = right[a]!;
  right[a] = right[b]!;
  right[b] = held;
}
