import { describe, expect, it } from 'vitest';
import { CaseMeter, climateCases, list } from '../../../test/climateCases.ts';
import { clearnessIndex, diffuseShareOfPar, erbsDiffuseShare, extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';

describe.skipIf(climateCases === undefined)('diffuse light', () => {
  const meter = new CaseMeter();
  const given = (id: string, key: string): readonly number[] => list(meter.case(id).in[key]);

  it('Erbs, Klein & Duffie 1982', () => {
    meter.compare('erbs-points', { kd: given('erbs-points', 'kt').map(erbsDiffuseShare) });
    const rows = given('erbs-pvlib', 'ghi').map((globalWM2, index) => ({
      globalWM2, cosZenith: Math.cos((given('erbs-pvlib', 'zenith_deg')[index] ?? NaN) * Math.PI / 180), day: given('erbs-pvlib', 'doy')[index] ?? NaN,
    }));
    const splits = rows.map((row) => splitGlobal(row.globalWM2, row.cosZenith, row.day));
    meter.compare('erbs-pvlib', {
      dni: splits.map((split) => split.directNormalWM2), dhi: splits.map((split) => split.diffuseWM2),
      kt: rows.map((row) => clearnessIndex(row.globalWM2, row.cosZenith, row.day)),
    });
  });

  it('Spitters, Toussaint & Goudriaan 1986', () => {
    const zeniths = given('spitters-par', 'zenith_deg');
    meter.compare('spitters-par', { kd_par: given('spitters-par', 'kd').map((kd, index) => diffuseShareOfPar(kd, zeniths[index] ?? NaN)) });
    meter.report('diffuse light', 'Erbs et al. 1982, Spitters et al. 1986');
  });
});

describe('splitGlobal at the edges', () => {
  it('closes: global = diffuse + direct x cosine', () => {
    for (const [globalWM2, cosZenith] of [[50, 0.1], [300, 0.5], [900, 0.9]] as const) {
      const split = splitGlobal(globalWM2, cosZenith, 100);
      expect(split.diffuseWM2 + split.directNormalWM2 * cosZenith).toBeCloseTo(globalWM2, 9);
    }
  });
  it('has no beam below 3 degrees of sun, and a clearness between 0 and 1', () => {
    expect(splitGlobal(30, Math.cos(87.1 * Math.PI / 180), 1)).toEqual({ directNormalWM2: 0, diffuseWM2: 30 });
    expect(splitGlobal(30, Math.cos(86.9 * Math.PI / 180), 1).directNormalWM2).toBeGreaterThan(0);
    expect(clearnessIndex(1500, 0.1, 1)).toBe(1);
    expect(clearnessIndex(0, 0.5, 1)).toBe(0);
    expect(clearnessIndex(20, -0.5, 1)).toBeCloseTo(20 / (0.065 * extraterrestrialNormalWM2(1)), 12);
  });
  it("follows Spencer's series over the year", () => {
    // By hand: day 1 1366.1 x 1.03505; day 92 (B = 91/365 turns) 1366.1 x (1.00011 + 0.000147 + 0.00128 - 0.000719 + 6.6e-7).
    expect(extraterrestrialNormalWM2(1)).toBeCloseTo(1366.1 * 1.03505, 2);
    expect(extraterrestrialNormalWM2(92)).toBeCloseTo(1366.1 * (1.00011 + 0.034221 * 0.0043036 + 0.00128 * 0.9999907 - 0.000719 * 0.99996296 + 7.7e-5 * 0.0086071), 4);
  });

  it('leaves the first line of the Erbs split at 0.22: 0.97925 at 0.225, by hand', () => {
    expect(erbsDiffuseShare(0.22)).toBeCloseTo(1 - 0.09 * 0.22, 12);
    expect(erbsDiffuseShare(0.225)).toBeCloseTo(0.9792511, 6);
  });
});
