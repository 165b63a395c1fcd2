import { describe, expect, it } from 'vitest';
import { componentsMolPerKg, pureProduct } from './fertiliserProducts.ts';
import { incompatibilityGroups, reasonsToKeepApart, cautionsOf } from './incompatibilities.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';
import { solubilityGPerL } from './solubility.ts';
import { stockTanks, type StockRequest } from './stockTanks.ts';
import type { SubstanceId } from './substances.ts';

const pure = (...ids: SubstanceId[]) => ids.map(pureProduct);
const chelate6 = PRODUCT_CATALOGUE.find(({ id }) => id === 'iron-dtpa-6')!;
const product = (id: string) => PRODUCT_CATALOGUE.find((entry) => entry.id === id)!;
const MACRO_SALTS = pure('calcium-nitrate-tetrahydrate', 'potassium-nitrate', 'ammonium-nitrate', 'potassium-dihydrogen-phosphate', 'magnesium-sulfate-heptahydrate', 'potassium-sulfate');
const MICRO_SALTS = [...pure('manganese-sulfate-monohydrate', 'zinc-sulfate-heptahydrate', 'boric-acid', 'copper-sulfate-pentahydrate', 'sodium-molybdate-dihydrate'), chelate6];
const LETTUCE = { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2, Fe: 0.04, Mn: 0.005, Zn: 0.004, B: 0.03, Cu: 0.00075, Mo: 0.0005 };
const REQUEST: StockRequest = { targetMmolPerL: LETTUCE, products: [...MACRO_SALTS, ...MICRO_SALTS], concentrationFactor: 100, tankVolumeL: 100, coldestC: 10 };

describe('stock tanks', () => {
  // Worked by hand: lettuce recipe of Sonneveld & Straver 1994 (from memory), pure water, 100 times, two tanks of 100 L.
  it('makes the worked example exactly', () => {
    const outcome = stockTanks(REQUEST);
    if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
    const { tanks, feedL, feed } = outcome.value;
    const grams = Object.assign({}, ...tanks.map(({ gramsByProduct }) => gramsByProduct)) as Record<string, number>;
    console.log('Lettuce stock tanks (worked example), g:', JSON.stringify(grams));
    expect(feedL).toBe(10_000);
    const expected: [string, number, number][] = [
      ['calcium-nitrate-tetrahydrate', 10_626.6, 0.5], ['ammonium-nitrate', 1000.5, 0.5], ['iron-dtpa-6', 372.3, 0.05], ['potassium-nitrate', 8846.4, 0.5],
      ['potassium-dihydrogen-phosphate', 2721.7, 0.5], ['magnesium-sulfate-heptahydrate', 2464.7, 0.5], ['potassium-sulfate', 217.8, 0.5],
      ['manganese-sulfate-monohydrate', 8.45, 0.005], ['zinc-sulfate-heptahydrate', 11.5, 0.005], ['boric-acid', 18.55, 0.005], ['copper-sulfate-pentahydrate', 1.87, 0.005],
      ['sodium-molybdate-dihydrate', 1.21, 0.005]];
    for (const [id, g, allowed] of expected) expect(Math.abs(grams[id]! - g), id).toBeLessThan(allowed);
    expect(Object.keys(grams)).toHaveLength(expected.length);
    expect(feed.residualMmolPerL.SO4).toBeCloseTo(0.00975, 10);
    for (const [name, off] of Object.entries(feed.residualMmolPerL)) if (name !== 'SO4') expect(Math.abs(off), name).toBeLessThan(1e-10);
  });
  it('keeps calcium and iron in A, phosphate and sulfate in B', () => {
    const outcome = stockTanks(REQUEST);
    const tanks = outcome.ok ? outcome.value.tanks : [];
    expect(tanks.map(({ id }) => id)).toEqual(['A', 'B']);
    expect(Object.keys(tanks[0]!.gramsByProduct)).toEqual(expect.arrayContaining(['calcium-nitrate-tetrahydrate', 'iron-dtpa-6']));
    expect(tanks[0]!.mmolPerL.Ca).toBeCloseTo(450, 6);
    expect(tanks[0]!.mmolPerL.P).toBeUndefined();
    expect(tanks[1]!.mmolPerL.Ca).toBeUndefined();
    expect(tanks[1]!.mmolPerL.P).toBeCloseTo(200, 6);
  });
  it('refuses calcium with phosphate or sulfate in one tank, naming each pair', () => {
    const outcome = stockTanks({ ...REQUEST, tanks: { A: REQUEST.products.map(({ id }) => id) } });
    const refusals = outcome.ok ? [] : outcome.refusals.filter(({ code }) => code === 'incompatible-products');
    expect(refusals.map(({ value }) => value)).toContain('calcium-nitrate-tetrahydrate + potassium-dihydrogen-phosphate');
    expect(refusals.length).toBe(6);
  });
  it('refuses what does not dissolve in a cold store', () => {
    const outcome = stockTanks({ ...REQUEST, concentrationFactor: 200, coldestC: 5 });
    expect(outcome.ok ? [] : outcome.refusals).toMatchObject([{ code: 'not-soluble', path: 'tanks.B', unit: '%' }, { code: 'not-soluble' }]);
  });
  it('refuses a tank list that forgets, repeats or invents', () => {
    const outcome = stockTanks({ ...REQUEST, products: MACRO_SALTS, targetMmolPerL: { K: 1, NO3: 1 }, tanks: { A: ['magic', 'ammonium-nitrate'], B: ['ammonium-nitrate'] } });
    expect(outcome.ok ? [] : outcome.refusals.map(({ code, value }) => `${code} ${String(value)}`)).toEqual(
      ['value-missing potassium-nitrate', 'reference-unknown magic', 'duplicate ammonium-nitrate']);
  });
  it('allows three quarters of what dissolves, and says what share it is', () => {
    // Potassium nitrate, 170 g/L at 10 C: 127.5 g/L are 75 % (of 70 to 80 %, common practice).
    const at = (gPerL: number) => stockTanks({ targetMmolPerL: { K: (gPerL / 101.102) * 10, NO3: (gPerL / 101.102) * 10 }, products: pure('potassium-nitrate'), concentrationFactor: 100, tankVolumeL: 100, coldestC: 10 });
    expect(at(127.4).ok).toBe(true);
    const outcome = at(128.5);
    expect(outcome.ok ? [] : outcome.refusals).toMatchObject([{ code: 'not-soluble', value: 76, limit: 75, unit: '%', message: expect.stringContaining('76 % of what dissolves at 10 C; at most 75 % is safe') }]);
  });
  it('puts acid and alkali apart from everything', () => {
    const outcome = stockTanks({ ...REQUEST, waterMmolPerL: { HCO3: 3, Ca: 1.5 }, products: [...REQUEST.products, product('nitric-acid-38')] });
    expect(outcome.ok ? outcome.value.tanks.find(({ id }) => id === 'C')?.gramsByProduct : {}).toHaveProperty('nitric-acid-38');
  });
  it('refuses no volume and no factor', () => {
    const outcome = stockTanks({ ...REQUEST, concentrationFactor: 0, tankVolumeL: -1 });
    expect(outcome.ok ? [] : outcome.refusals.map(({ path }) => path)).toEqual(['concentrationFactor', 'tankVolumeL']);
  });
});

describe('incompatibilities', () => {
  it.each([
    ['calcium-nitrate', 'monopotassium-phosphate', 1], ['calcium-nitrate', 'magnesium-sulfate', 1], ['calcium-nitrate', 'potassium-nitrate', 0],
    ['calcium-nitrate', 'phosphoric-acid-59', 1], ['calcium-nitrate', 'nitric-acid-60', 0], ['nitric-acid-60', 'potassium-hydroxide-50', 1],
    ['nitric-acid-60', 'iron-dtpa-6', 1], ['ammonium-nitrate', 'potassium-hydroxide-50', 1], ['iron-dtpa-6', 'calcium-nitrate', 0],
    ['potassium-bicarbonate', 'calcium-nitrate', 2], ['monopotassium-phosphate', 'magnesium-sulfate', 0], ['iron-dtpa-6', 'potassium-bicarbonate', 1],
    ['magnesium-sulfate', 'potassium-hydroxide-50', 1],
  ] as const)('%s with %s: %d reasons', (a, b, reasons) => {
    expect(reasonsToKeepApart(product(a), product(b))).toHaveLength(reasons);
    expect(reasonsToKeepApart(product(b), product(a))).toHaveLength(reasons);
  });
  it('keeps disinfectants from acid, chelate and ammonium', () => {
    const peroxide = pureProduct('hydrogen-peroxide');
    expect(['nitric-acid-60', 'iron-dtpa-6', 'ammonium-nitrate', 'potassium-chloride'].map((id) => reasonsToKeepApart(peroxide, product(id)).length)).toEqual([1, 1, 1, 0]);
  });
  it('groups by what is inside', () => {
    expect(incompatibilityGroups(product('calcium-nitrate'))).toEqual(['calcium', 'ammonium']);
    expect(incompatibilityGroups(product('phosphoric-acid-85'))).toEqual(['phosphateOrSulfate', 'acid']);
    expect(componentsMolPerKg(product('calcium-nitrate')).NH4).toBeLessThan(1);
  });
  it('cautions', () => {
    expect(cautionsOf(product('nitric-acid-60'))).toEqual(['acid', 'oxidising']);
    expect(cautionsOf(product('calcium-nitrate'))).toEqual(['calcium', 'ammonium', 'dust']);
    expect(cautionsOf(product('potassium-hydroxide-50'))).toEqual(['alkaline']);
    expect(cautionsOf(pureProduct('hydrogen-peroxide'))).toEqual(['disinfectant', 'oxidising', 'dust']);
  });
});

describe('solubility', () => {
  it('reads between published points', () => {
    expect(solubilityGPerL('potassium-nitrate', 15)).toBeCloseTo(189.5, 6);
    expect(solubilityGPerL('potassium-nitrate', 5)).toBe(133);
    expect(solubilityGPerL('potassium-nitrate', 30)).toBe(209);
    expect(solubilityGPerL('potassium-nitrate', 0)).toBeCloseTo(133 * 0.85, 6);
    expect(solubilityGPerL('nitric-acid', 10)).toBeUndefined();
  });
  it('converts anhydrous figures and errs to the safe side', () => {
    // 33.7 g MgSO4 per 100 g of water is 106.6 g of heptahydrate per 100 g added; handbooks give about 710 g/L of solution.
    expect(solubilityGPerL('magnesium-sulfate-heptahydrate', 20)).toBeCloseTo((1000 * 106.6) / 206.6, 0);
    // Boric acid 4.9 g per 100 g of water.
    expect(solubilityGPerL('boric-acid', 20)).toBeCloseTo(46.7, 1);
  });
});
