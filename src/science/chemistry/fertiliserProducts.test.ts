import { describe, expect, it } from 'vitest';
import { chargeBalanceMeqPerL } from './composition.ts';
import { mgPerLFromMmolPerL } from './concentrationUnits.ts';
import { componentsMolPerKg, componentsMolPerL, pureProduct, type FertiliserProduct } from './fertiliserProducts.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';
import { substanceOf, SUBSTANCES, type SubstanceId } from './substances.ts';

const catalogued = (id: string): FertiliserProduct => PRODUCT_CATALOGUE.find((product) => product.id === id)!;
const ids = Object.keys(SUBSTANCES) as SubstanceId[];

describe('substances', () => {
  it.each(ids)('%s is electrically neutral', (id) => expect(chargeBalanceMeqPerL(substanceOf(id).components)).toBeCloseTo(0, 12));

  // Element content of the pure salt, percent by mass (stoichiometric; printed to two digits in handbooks).
  it.each([
    ['calcium-nitrate-tetrahydrate', 'Ca', 'Ca', 16.97], ['calcium-nitrate-tetrahydrate', 'NO3', 'NO3-N', 11.86],
    ['calcium-ammonium-nitrate-decahydrate', 'Ca', 'Ca', 18.54], ['calcium-ammonium-nitrate-decahydrate', 'NO3', 'NO3-N', 14.26],
    ['calcium-ammonium-nitrate-decahydrate', 'NH4', 'NH4-N', 1.3], ['potassium-nitrate', 'K', 'K', 38.67], ['potassium-nitrate', 'NO3', 'NO3-N', 13.85],
    ['potassium-dihydrogen-phosphate', 'K', 'K', 28.73], ['potassium-dihydrogen-phosphate', 'P', 'P', 22.76], ['ammonium-dihydrogen-phosphate', 'NH4', 'NH4-N', 12.18],
    ['ammonium-dihydrogen-phosphate', 'P', 'P', 26.93], ['magnesium-sulfate-heptahydrate', 'Mg', 'Mg', 9.86], ['magnesium-sulfate-heptahydrate', 'SO4', 'S', 13.01],
    ['potassium-sulfate', 'K', 'K', 44.87], ['potassium-sulfate', 'SO4', 'S', 18.4], ['magnesium-nitrate-hexahydrate', 'Mg', 'Mg', 9.48],
    ['magnesium-nitrate-hexahydrate', 'NO3', 'NO3-N', 10.93], ['calcium-chloride-dihydrate', 'Ca', 'Ca', 27.26], ['calcium-chloride-dihydrate', 'Cl', 'Cl', 48.23],
    ['potassium-chloride', 'K', 'K', 52.45], ['ammonium-sulfate', 'NH4', 'NH4-N', 21.2], ['ammonium-sulfate', 'SO4', 'S', 24.26], ['potassium-hydroxide', 'K', 'K', 69.69],
    ['potassium-bicarbonate', 'K', 'K', 39.05], ['manganese-sulfate-monohydrate', 'Mn', 'Mn', 32.51], ['manganese-sulfate-tetrahydrate', 'Mn', 'Mn', 24.63],
    ['zinc-sulfate-heptahydrate', 'Zn', 'Zn', 22.74], ['zinc-sulfate-monohydrate', 'Zn', 'Zn', 36.43], ['copper-sulfate-pentahydrate', 'Cu', 'Cu', 25.45],
    ['boric-acid', 'B', 'B', 17.48], ['borax', 'B', 'B', 11.34], ['sodium-molybdate-dihydrate', 'Mo', 'Mo', 39.66], ['ammonium-nitrate', 'NH4', 'NH4-N', 17.5],
    ['ammonium-nitrate', 'NO3', 'NO3-N', 17.5], ['sodium-chloride', 'Na', 'Na', 39.34], ['sodium-chloride', 'Cl', 'Cl', 60.66],
    ['potassium-silicate', 'Si', 'Si', 18.2], ['potassium-silicate', 'K', 'K', 50.68], ['borax', 'Na', 'Na', 12.06], ['sodium-molybdate-dihydrate', 'Na', 'Na', 19],
  ] as const)('%s holds %s (as %s) %f %%', (id, component, form, pct) => {
    const molPerKg = componentsMolPerKg(pureProduct(id))[component]!;
    expect(mgPerLFromMmolPerL(form, molPerKg) / 10).toBeCloseTo(pct, 1.7);
  });
});

describe('products', () => {
  it('does not take horticultural calcium nitrate for the tetrahydrate', () => {
    const { Ca, NO3, NH4 } = componentsMolPerKg(catalogued('calcium-nitrate'));
    expect(Ca).toBeCloseTo(4.741, 3);
    expect(NO3).toBeCloseTo(10.281, 3);
    expect(NH4).toBeCloseTo(0.785, 3);
    expect(Ca! / componentsMolPerKg(pureProduct('calcium-nitrate-tetrahydrate')).Ca!).toBeGreaterThan(1.09);
  });
  it('states a chelate by its iron', () => {
    const { Fe, Na } = componentsMolPerKg(catalogued('iron-dtpa-6'));
    expect(Fe).toBeCloseTo(60 / 55.845, 6);
    expect(Na).toBe(Fe);
    expect(componentsMolPerKg(catalogued('iron-edta-13')).Fe).toBeCloseTo(2.3279, 4);
  });
  // Moles per litre of common acids: CRC Handbook (from memory).
  it.each([['nitric-acid-38', 'NO3', 7.44], ['nitric-acid-60', 'NO3', 13], ['phosphoric-acid-59', 'P', 8.55], ['phosphoric-acid-85', 'P', 14.7],
    ['sulfuric-acid-37', 'SO4', 4.8], ['potassium-hydroxide-50', 'K', 13.5]] as const)('%s holds %s %f mol/L', (id, component, molPerL) =>
    expect(componentsMolPerL(catalogued(id))![component]! / molPerL).toBeCloseTo(1, 2));
  it('takes alkalinity with acid, two for sulfuric', () => {
    expect(componentsMolPerKg(pureProduct('nitric-acid')).HCO3).toBeCloseTo(-1000 / 63.012, 4);
    expect(componentsMolPerKg(pureProduct('sulfuric-acid')).HCO3).toBeCloseTo(-2000 / 98.07, 2);
  });
  it('does not measure solids by the litre', () => expect(componentsMolPerL(catalogued('potassium-nitrate'))).toBeUndefined());
  it('cannot state a grade by an element that is not there', () =>
    expect(() => componentsMolPerKg({ ...pureProduct('potassium-nitrate'), grade: { by: 'element', component: 'Ca', massFraction: 0.1 } })).toThrow('contains no Ca'));
  it('has labels that balance electrically within their rounding', () => {
    for (const product of PRODUCT_CATALOGUE) expect(Math.abs(chargeBalanceMeqPerL(componentsMolPerKg(product)))).toBeLessThan(0.02);
  });
  it('has unique ids', () => expect(new Set(PRODUCT_CATALOGUE.map(({ id }) => id)).size).toBe(PRODUCT_CATALOGUE.length));
});
