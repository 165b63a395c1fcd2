import { expect, it } from 'vitest';
import { startRandom } from '../seededRandom.ts';
import { fitPlane } from './fitPlane.ts';

it('finds the plane that most points agree on among 40 % strays', () => {
  const random = startRandom(3), count = 3000;
  const x = Float64Array.from({ length: count }, () => 600 * random.uniform() - 300), y = Float64Array.from({ length: count }, () => 600 * random.uniform() - 300);
  const z = Float64Array.from({ length: count }, (_, i) => (i % 5 < 2 ? 200 * random.uniform() : 4 + 0.01 * x[i]! - 0.02 * y[i]! + random.normal()));
  const plane = fitPlane({ count, x, y, z }, 6)!;
  expect(Math.abs(plane.level - 4)).toBeLessThan(0.3);
  expect(Math.abs(plane.slopeX - 0.01)).toBeLessThan(0.002);
  expect(Math.abs(plane.slopeY + 0.02)).toBeLessThan(0.002);
});

it('has no plane through too few points', () => expect(fitPlane({ count: 3, x: new Float64Array(3), y: new Float64Array(3), z: new Float64Array(3) }, 5)).toBeUndefined());
