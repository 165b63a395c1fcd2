import { describe, expect, it } from 'vitest';
import { mgPerLFromMmolPerL, type ConcentrationFormName, CONCENTRATION_FORMS } from './concentrationUnits.ts';
import { componentsMolPerKg } from './fertiliserProducts.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';

const product = (id: string) => PRODUCT_CATALOGUE.find((entry) => entry.id === id)!;
/** Percent by mass of the product in the form in which labels state it. */
const contentPct = (id: string, form: ConcentrationFormName): number => mgPerLFromMmolPerL(form, componentsMolPerKg(product(id))[CONCENTRATION_FORMS[form].component] ?? 0) / 10;

describe('what the bags hold', () => {
  // Grades as on suppliers' labels (ghvi.co.nz fertiliser quality and common grades), percent of the element or oxide by mass.
  it.each([
    ['calcium-nitrate', 'CaO', 26.5], ['calcium-nitrate', 'NO3-N', 14.4], ['calcium-nitrate', 'NH4-N', 1.1], ['calcium-chloride', 'Ca', 27], ['calcium-chloride', 'Cl', 48],
    ['potassium-nitrate', 'K2O', 46], ['potassium-nitrate', 'NO3-N', 13.7], ['potassium-sulfate', 'K2O', 52], ['potassium-chloride', 'K', 52], ['monopotassium-phosphate', 'P2O5', 52],
    ['monopotassium-phosphate', 'K2O', 34], ['monoammonium-phosphate', 'P2O5', 61], ['monoammonium-phosphate', 'NH4-N', 12], ['ammonium-nitrate', 'NO3-N', 17.1], ['ammonium-nitrate', 'NH4-N', 17.1],
    ['ammonium-sulfate', 'NH4-N', 21], ['magnesium-sulfate', 'MgO', 16.2], ['magnesium-nitrate', 'Mg', 9.5], ['manganese-sulfate', 'Mn', 32], ['zinc-sulfate', 'Zn', 22.7], ['copper-sulfate', 'Cu', 25],
    ['boric-acid', 'B', 17.4], ['borax', 'B', 11.3], ['sodium-molybdate', 'Mo', 39], ['iron-edta-13', 'Fe', 13], ['iron-dtpa-11', 'Fe', 11], ['iron-dtpa-6', 'Fe', 6], ['iron-eddha-6', 'Fe', 6],
    ['potassium-bicarbonate', 'K', 38.7],
  ] as const)('%s, %s %f %%', (id, form, pct) => expect(Math.abs(contentPct(id, form) / pct - 1)).toBeLessThan(0.015));
  it('holds no element that a label does not name in its first line', () => expect(contentPct('potassium-nitrate', 'Ca')).toBe(0));
});

describe('acids and lye by the litre', () => {
  // Density at 20 C, kg/L: Perry's Chemical Engineers' Handbook, tables of aqueous solutions (from memory, unverified); nitric acid also in the open
  // table engineeringtoolbox.com/density-aqueous-solution-inorganic-salt-acid-concentration-d_1958.html (30 % 1.1801, 40 % 1.2466).
  it.each([['nitric-acid-38', 0.38, 1.2333], ['nitric-acid-60', 0.6, 1.3667], ['phosphoric-acid-59', 0.59, 1.417], ['phosphoric-acid-85', 0.85, 1.689], ['sulfuric-acid-37', 0.37, 1.277],
    ['potassium-hydroxide-50', 0.5, 1.514]])('%s', (id, massFraction, densityKgPerL) => {
    expect(product(id).grade).toEqual({ by: 'purity', massFraction });
    expect(Math.abs(product(id).densityKgPerL! / densityKgPerL - 1)).toBeLessThan(0.01);
  });
  it('gives a density to every liquid and to no solid', () => {
    for (const { form, densityKgPerL } of PRODUCT_CATALOGUE) expect(densityKgPerL !== undefined).toBe(form === 'liquid');
  });
});
