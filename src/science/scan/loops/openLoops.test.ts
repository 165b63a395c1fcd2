import { expect, test } from 'vitest';
import { closeLoops, inLoops, openLoops } from './openLoops.ts';

test('loops that were closed come back empty, and the smallest with enough room first', () => {
  const small = openLoops(), large = openLoops();
  small.put(Float64Array.of(1, 2, 3));
  const place = large.put(new Float64Array(200_000).fill(7));
  closeLoops(large);
  closeLoops(small);
  expect(openLoops(1_000_000)).toBe(large);
  expect(openLoops()).toBe(small);
  expect(large.room(8)).toBe(place);
  expect(large.view(Float64Array, place, 100_000).every((value) => value === 0)).toBe(true);
});

test('loops are closed also after a fault', () => {
  let seen: unknown;
  expect(() => inLoops((loops) => { seen = loops; throw new Error('no'); })).toThrow('no');
  expect(openLoops()).toBe(seen);
});
