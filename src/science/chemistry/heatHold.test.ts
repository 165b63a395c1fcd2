import { expect, it } from 'vitest';
import { neededHoldS } from './heatHold.ts';

it('holds the two points in use, their geometric mean between them, and says nothing below', () => {
  // 95 C for 30 s: GPN "Water disinfection"; 85 C for 3 min: from memory, unverified.
  expect(neededHoldS(95)).toBe(30);
  expect(neededHoldS(85)).toBe(180);
  expect(neededHoldS(90)).toBeCloseTo(Math.sqrt(30 * 180), 9);
  expect(neededHoldS(99)).toBe(30);
  expect(neededHoldS(84.9)).toBeUndefined();
  expect(neededHoldS(Number.NaN)).toBeUndefined();
});
