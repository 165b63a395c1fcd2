import { describe, expect, it } from 'vitest';
import { refuseTemperature, warnValidity } from './validity.ts';

const limitsOf = (ionicStrengthMolPerKg: number, pH: number, chargeErrorPct: number) => warnValidity({ ionicStrengthMolPerKg, pH, chargeErrorPct }, 'water').map(({ limit }) => limit);

describe('validity', () => {
  // Activity rules good to 0.1 and fair to 0.5 mol/kg (Davies 1962; Truesdell & Jones 1974); laboratories balance charges to 5 %.
  it('warns just beyond each limit and not at it', () => {
    expect(limitsOf(0.1, 3, 5)).toEqual([]);
    expect(limitsOf(0.1, 10, -5)).toEqual([]);
    expect(limitsOf(0.101, 7, 0)).toEqual([0.1]);
    expect(limitsOf(0.5, 7, 0)).toEqual([0.1]);
    expect(limitsOf(0.51, 7, 0)).toEqual([0.5]);
    expect(limitsOf(0.01, 2.99, 0)).toEqual(['3 to 10']);
    expect(limitsOf(0.01, 10.01, 0)).toEqual(['3 to 10']);
    expect(limitsOf(0.01, 7, -5.01)).toEqual([5]);
  });
  it('refuses temperatures outside 0 to 50 C and what is no number', () => {
    expect([0, 25, 50].flatMap((t) => refuseTemperature(t, 't'))).toEqual([]);
    expect([-0.01, 50.01].map((t) => refuseTemperature(t, 't')[0]!.code)).toEqual(['value-out-of-range', 'value-out-of-range']);
    expect(refuseTemperature(Number.NaN, 't')[0]!.code).toBe('value-not-a-number');
  });
});
