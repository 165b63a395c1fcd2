import { expect, test } from 'vitest';
import { invertSymmetric } from './invertSymmetric.ts';

test('the inverse of a matrix worked by hand', () => {
  // [[4, 2], [2, 3]] has determinant 8.
  const inverse = invertSymmetric(Float64Array.of(4, 2, 2, 3), 2)!;
  [3 / 8, -2 / 8, -2 / 8, 4 / 8].forEach((value, i) => expect(inverse[i]).toBeCloseTo(value, 12));
});

test('a matrix that is not positive definite has none', () => {
  expect(invertSymmetric(Float64Array.of(1, 2, 2, 1), 2)).toBeUndefined();
});
