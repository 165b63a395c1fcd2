import { describe, expect, it } from 'vitest';
import { activityCoefficients, waterActivityAt } from './activity.ts';
import { ACTIVITY_CLASS, ACTIVITY_CLASSES, speciesIndex } from './equilibriumSystem.ts';
import { debyeA, debyeBPerAngstrom } from './waterProperties.ts';

/** log10 activity coefficients at 25 C by species name. */
function at25(strength: number): (name: string) => number {
  const log10Gamma = new Float64Array(ACTIVITY_CLASSES.length);
  activityCoefficients(strength, debyeA(25), debyeBPerAngstrom(25), log10Gamma);
  return (name) => log10Gamma[ACTIVITY_CLASS[speciesIndex(name)]!]!;
}

describe('activity coefficients', () => {
  // Lettuce solution of ionic strength 0.02858 mol/kg at 25 C, by PHREEQC 3.8.9 (USGS).
  it.each([['K+', -0.0718], ['Ca+2', -0.2652], ['Mg+2', -0.2585], ['NO3-', -0.0739], ['H2PO4-', -0.0663], ['HPO4-2', -0.27], ['SO4-2', -0.2711], ['H+', -0.0575]])(
    '%s in a lettuce solution', (name, log10Gamma) => expect(at25(0.02858)(name)).toBeCloseTo(log10Gamma, 3.7));
  // Worked by hand from Davies 1962: -0.5100 (0.316228/1.316228 - 0.03) = -0.10723 for one charge at I 0.1, four times that for two.
  it('follow Davies where no size is known', () => {
    expect(at25(0.1)('HMoO4-')).toBeCloseTo(-0.10723, 4);
    expect(at25(0.1)('MoO4-2')).toBeCloseTo(-0.42892, 4);
  });
  it('salt out what has no charge: 0.1 I', () => expect(at25(0.5)('CO2')).toBeCloseTo(0.05, 12));
  it('are 1 in pure water', () => expect(at25(0)('Ca+2')).toBeCloseTo(0, 12));
});

describe('activity of water', () => {
  // Garrels & Christ 1965: 1 - 0.017 times the sum of solutes, mol/kg. 0.1 mol of solutes: 0.9983; PHREEQC uses the same.
  it('falls with what is dissolved', () => expect(waterActivityAt(0.1)).toBeCloseTo(0.9983, 12));
  it('never falls to nothing', () => expect(waterActivityAt(100)).toBe(0.001));
});
