import { describe, expect, it } from 'vitest';
import { fallingExp } from './fallingExp.ts';

describe('fallingExp', () => {
  it('equals exp(-x) to 1e-13 of itself up to 43, and is 0 beyond', () => {
    let worst = 0;
    for (let x = 0; x < 43; x += 0.00137) worst = Math.max(worst, Math.abs(fallingExp(x) / Math.exp(-x) - 1));
    expect(worst).toBeLessThan(1e-13);
    expect(fallingExp(0)).toBe(1);
    expect(fallingExp(44)).toBe(0);
    expect(fallingExp(1e9)).toBe(0);
  });
});
