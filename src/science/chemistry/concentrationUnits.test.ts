import { describe, expect, it } from 'vitest';
import { massFactor, meqPerLFromMmolPerL, mgPerLFromMmolPerL, mmolPerLFromMeqPerL, mmolPerLFromMgPerL } from './concentrationUnits.ts';

describe('concentration units', () => {
  // Oxide factors as printed on fertiliser tables: 0.4364, 0.8301, 0.7147, 0.6030, 0.4005.
  it.each([['P2O5', 'P', 0.4364], ['K2O', 'K', 0.8301], ['CaO', 'Ca', 0.7147], ['MgO', 'Mg', 0.603], ['SO3', 'S', 0.4005],
    ['NO3', 'NO3-N', 0.2259], ['NH4', 'NH4-N', 0.7765], ['PO4', 'P', 0.3261], ['H2PO4', 'P', 0.3194], ['SO4', 'S', 0.3338],
    ['SiO2', 'Si', 0.4674], ['alkalinity-CaCO3', 'HCO3', 1.2193]] as const)('%s carries %s times %f', (from, to, factor) =>
    expect(Math.abs(massFactor(from, to) - factor)).toBeLessThan(6e-5));

  // Lettuce recipe of Sonneveld & Straver 1994 (from memory) in mg/L.
  it.each([['NO3-N', 19, 266.1], ['NH4-N', 1.25, 17.5], ['P', 2, 61.9], ['K', 11, 430.1], ['Ca', 4.5, 180.4], ['Mg', 1, 24.3],
    ['S', 1.125, 36.1], ['Na', 1, 22.99], ['Cl', 1, 35.45], ['HCO3', 1, 61.0]] as const)('%s %f mmol/L is %f mg/L', (form, mmol, mg) => {
    expect(mgPerLFromMmolPerL(form, mmol)).toBeCloseTo(mg, 1);
    expect(mmolPerLFromMgPerL(form, mg)).toBeCloseTo(mmol, 2);
  });
  it.each([['Fe', 0.04, 2.23], ['Mn', 0.005, 0.275], ['Zn', 0.004, 0.262], ['B', 0.03, 0.324], ['Cu', 0.00075, 0.048], ['Mo', 0.0005, 0.048],
    ['Si', 1, 28.09]] as const)('%s %f mmol/L is %f mg/L', (form, mmol, mg) => expect(mgPerLFromMmolPerL(form, mmol)).toBeCloseTo(mg, 2));

  it('equates 50 mg/L alkalinity as CaCO3 with 1 meq/L (50.04 to be exact)', () => expect(mmolPerLFromMgPerL('alkalinity-CaCO3', 50)).toBeCloseTo(0.99914, 5));
  it('counts charges', () => {
    expect(meqPerLFromMmolPerL('SO4', 2)).toBe(4);
    expect(mmolPerLFromMeqPerL('Ca', 5)).toBe(2.5);
    expect(meqPerLFromMmolPerL('B', 1)).toBeUndefined();
    expect(mmolPerLFromMeqPerL('Si', 1)).toBeUndefined();
  });
  it('does not convert between components', () => expect(() => massFactor('K', 'Ca')).toThrow('different components'));
});
