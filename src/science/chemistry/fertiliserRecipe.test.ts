import { describe, expect, it } from 'vitest';
import { pureProduct } from './fertiliserProducts.ts';
import { gramsForRecipe, type Recipe, type RecipeRequest } from './fertiliserRecipe.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';
import type { SubstanceId } from './substances.ts';

const pure = (...ids: SubstanceId[]) => ids.map(pureProduct);
function recipe(request: RecipeRequest): Recipe {
  const outcome = gramsForRecipe(request);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}

describe('Hoagland & Arnon 1950', () => {
  // Their grams per 1,000 L: California Agr. Exp. Station Circular 347 (from memory), with IUPAC masses.
  it('no. 1', () => {
    const { gramsByProduct } = recipe({ volumeL: 1000, targetMmolPerL: { K: 6, Ca: 5, Mg: 2, NO3: 15, SO4: 2, P: 1 },
      products: pure('potassium-dihydrogen-phosphate', 'potassium-nitrate', 'calcium-nitrate-tetrahydrate', 'magnesium-sulfate-heptahydrate') });
    console.log('Hoagland & Arnon 1950 no. 1, g per 1,000 L:', JSON.stringify(gramsByProduct));
    expect(gramsByProduct['potassium-dihydrogen-phosphate']).toBeCloseTo(136.1, 1);
    expect(gramsByProduct['potassium-nitrate']).toBeCloseTo(505.5, 1);
    expect(gramsByProduct['calcium-nitrate-tetrahydrate']).toBeCloseTo(1180.7, 1);
    expect(gramsByProduct['magnesium-sulfate-heptahydrate']).toBeCloseTo(492.9, 1);
  });
  it('no. 2', () => {
    const { gramsByProduct, residualMmolPerL } = recipe({ volumeL: 1000, targetMmolPerL: { NH4: 1, K: 6, Ca: 4, Mg: 2, NO3: 14, SO4: 2, P: 1 },
      products: pure('ammonium-dihydrogen-phosphate', 'potassium-nitrate', 'calcium-nitrate-tetrahydrate', 'magnesium-sulfate-heptahydrate') });
    expect(gramsByProduct['ammonium-dihydrogen-phosphate']).toBeCloseTo(115.0, 1);
    expect(gramsByProduct['potassium-nitrate']).toBeCloseTo(606.6, 1);
    expect(gramsByProduct['calcium-nitrate-tetrahydrate']).toBeCloseTo(944.6, 1);
    expect(gramsByProduct['magnesium-sulfate-heptahydrate']).toBeCloseTo(492.9, 1);
    for (const off of Object.values(residualMmolPerL)) expect(Math.abs(off)).toBeLessThan(1e-10);
  });
});

describe('recipes', () => {
  const lettuce = { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2 };
  it('makes lettuce feed from what growers buy, ammonium of the calcium nitrate included', () => {
    const { gramsByProduct, residualMmolPerL } = recipe({ volumeL: 1000, targetMmolPerL: lettuce, products: PRODUCT_CATALOGUE.filter(({ id }) =>
      ['calcium-nitrate', 'ammonium-nitrate', 'potassium-nitrate', 'monopotassium-phosphate', 'magnesium-sulfate', 'potassium-sulfate'].includes(id)) });
    expect(gramsByProduct['calcium-nitrate']).toBeCloseTo(4500 / 4.7408, 0);
    expect(gramsByProduct['ammonium-nitrate']).toBeCloseTo(41.3, 0);
    for (const off of Object.values(residualMmolPerL)) expect(Math.abs(off)).toBeLessThan(0.02);
  });
  it('uses acid against alkalinity and keeps the default rest', () => {
    const hardWater = { Ca: 2.2, Mg: 0.5, Na: 1, Cl: 0.9, SO4: 0.5, HCO3: 4.5 };
    const { gramsByProduct, achievedMmolPerL } = recipe({ volumeL: 1000, targetMmolPerL: lettuce, waterMmolPerL: hardWater, products: PRODUCT_CATALOGUE.filter(({ id }) =>
      ['calcium-nitrate', 'ammonium-nitrate', 'potassium-nitrate', 'monopotassium-phosphate', 'magnesium-sulfate', 'magnesium-nitrate', 'potassium-sulfate', 'nitric-acid-60'].includes(id)) });
    // 0.3 to 0.5 meq/L are left (common practice).
    expect(achievedMmolPerL.HCO3).toBeCloseTo(0.4, 6);
    expect(gramsByProduct['nitric-acid-60']).toBeCloseTo((4.1 * 63.012) / 0.6, -1);
    expect(achievedMmolPerL.NO3).toBeCloseTo(19, 0);
    expect(achievedMmolPerL.Cl).toBe(0.9);
  });
  it('leaves acid alone where there is no alkalinity to take', () => {
    const { gramsByProduct } = recipe({ volumeL: 1, targetMmolPerL: { NO3: 5 }, products: pure('nitric-acid') });
    expect(gramsByProduct['nitric-acid'] ?? 0).toBeLessThan(0.01);
  });
  it('leaves or counts the sulfate of micro-nutrients', () => {
    const request = { volumeL: 1, targetMmolPerL: { K: 2, SO4: 1, Mn: 0.1 }, products: pure('potassium-sulfate', 'potassium-chloride', 'manganese-sulfate-monohydrate') };
    expect(recipe(request).achievedMmolPerL.SO4).toBeCloseTo(1.1, 10);
    expect(recipe({ ...request, microCounterIons: 'count' }).achievedMmolPerL.SO4).toBeCloseTo(1, 10);
  });
  it('warns about what the water already exceeds', () => {
    const outcome = gramsForRecipe({ volumeL: 1, targetMmolPerL: { Mg: 1, K: 1 }, waterMmolPerL: { Mg: 2 }, products: pure('potassium-chloride') });
    expect(outcome).toMatchObject({ ok: true, warnings: [{ code: 'infeasible', path: 'targetMmolPerL.Mg', value: 2, limit: 1 }] });
  });
  it('warns from 2 % of a target on; a small target counts as 0.1 mmol/L, of a micro-nutrient as 0.5 umol/L', () => {
    const warned = (name: 'Mg' | 'Zn', target: number, water: number) => {
      const outcome = gramsForRecipe({ volumeL: 1, targetMmolPerL: { [name]: target, K: 1 }, waterMmolPerL: { [name]: water }, products: pure('potassium-chloride') });
      return outcome.ok && outcome.warnings.some(({ path }) => path === `targetMmolPerL.${name}`);
    };
    expect([warned('Mg', 1, 1.0198), warned('Mg', 1, 1.0202)]).toEqual([false, true]);
    expect([warned('Mg', 0.05, 0.05195), warned('Mg', 0.05, 0.05205)]).toEqual([false, true]);
    expect([warned('Zn', 1e-4, 1.098e-4), warned('Zn', 1e-4, 1.102e-4)]).toEqual([false, true]);
  });
  it('takes less than 0.1 ueq/L of free acid for rounding', () => {
    const left = (acidMeqPerL: number) => gramsForRecipe({ volumeL: 1, targetMmolPerL: { K: 1 }, waterMmolPerL: { HCO3: -acidMeqPerL }, products: pure('potassium-chloride') }).ok;
    expect([left(0.98e-4), left(1.02e-4)]).toEqual([true, false]);
  });
  it('refuses everything that is wrong at once', () => {
    const outcome = gramsForRecipe({ volumeL: 0, targetMmolPerL: { K: -1, Ca: Number.NaN }, waterMmolPerL: { Xx: 1 } as object, products: [] });
    expect(outcome.ok ? [] : outcome.refusals.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'value-out-of-range targetMmolPerL.K', 'value-not-a-number targetMmolPerL.Ca', 'key-unknown waterMmolPerL.Xx', 'value-out-of-range volumeL']);
  });
  it('refuses to leave free acid', () => {
    const outcome = gramsForRecipe({ volumeL: 1, targetMmolPerL: { K: 1 }, waterMmolPerL: { HCO3: -1 }, products: pure('potassium-chloride') });
    expect(outcome).toMatchObject({ ok: false, refusals: [{ code: 'infeasible' }] });
  });
});
