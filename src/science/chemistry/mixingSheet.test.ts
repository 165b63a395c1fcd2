import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CAUTIONS } from './cautions.ts';
import { incompatibilityGroups } from './incompatibilities.ts';
import { mixingSheet } from './mixingSheet.ts';
import { PRODUCT_CATALOGUE } from './productCatalogue.ts';
import { speciate } from './solutionSpeciation.ts';
import { refuseStockSaturation } from './stockSaturation.ts';
import { stockTanks, type StockRequest } from './stockTanks.ts';

const product = (id: string) => PRODUCT_CATALOGUE.find((entry) => entry.id === id)!;
const IDS = ['calcium-nitrate', 'ammonium-nitrate', 'potassium-nitrate', 'monopotassium-phosphate', 'monoammonium-phosphate', 'magnesium-sulfate', 'potassium-sulfate',
  'manganese-sulfate', 'zinc-sulfate', 'boric-acid', 'copper-sulfate', 'sodium-molybdate', 'iron-dtpa-11', 'nitric-acid-60'];
const LETTUCE = { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2, Fe: 0.04, Mn: 0.005, Zn: 0.004, B: 0.03, Cu: 0.00075, Mo: 0.0005 };
const REQUEST: StockRequest = { targetMmolPerL: LETTUCE, products: IDS.map(product), concentrationFactor: 100, tankVolumeL: 100, coldestC: 10,
  waterMmolPerL: { Ca: 2.2, Mg: 0.5, Na: 1, Cl: 0.9, SO4: 0.5, HCO3: 4.5 } };

describe('mixing sheet', () => {
  const recipe = stockTanks(REQUEST);
  const sheet = recipe.ok ? mixingSheet(recipe.value, REQUEST.products, 100) : undefined;
  it('puts water before everything and acid before salts, with the caution at the step', () => {
    const acid = sheet!.steps.filter(({ tank }) => tank === 'C');
    expect(acid.map(({ action, productId }) => productId ?? action)).toEqual(['fill', 'nitric-acid-60', 'top-up']);
    expect(acid[0]!.toVolumeL).toBe(60);
    expect(acid[1]!.cautions).toContain(CAUTIONS.acid);
    expect(acid[1]!.millilitres).toBeCloseTo(acid[1]!.grams! / 1.367, 9);
    expect(acid[2]!.toVolumeL).toBe(100);
  });
  it('adds salts from much to little and the chelate last', () => {
    const names = sheet!.steps.filter(({ tank, action }) => tank === 'A' && action === 'add').map(({ productId }) => productId);
    expect(names[0]).toBe('calcium-nitrate');
    expect(names.at(-1)).toBe('iron-dtpa-11');
    expect(sheet!.deference).toContain('safety data sheet');
  });
  it('carries the lot of a product', () => {
    const withLots = REQUEST.products.map((entry) => ({ ...entry, lot: `lot-${entry.id}` }));
    const lots = recipe.ok ? mixingSheet(recipe.value, withLots, 100).steps.flatMap(({ lot }) => lot ?? []) : [];
    expect(lots).toContain('lot-calcium-nitrate');
  });
});

describe('saturation of stock tanks', () => {
  it('refuses A and B put together: gypsum and brushite', () => {
    // PHREEQC 3.8.9 for 1:1 of 100 times lettuce stocks: gypsum +0.74, brushite +0.46, to plus or minus 0.3.
    const found = refuseStockSaturation({ NH4: 62.5, Ca: 225, NO3: 950, K: 550, P: 100, SO4: 56.25, Mg: 50 }, {}, 20, 'tank');
    expect(found.map(({ code, severity, message }) => `${code} ${severity} ${message.split(' ')[0]}`)).toEqual(['not-soluble error brushite', 'not-soluble error gypsum']);
    expect(Math.abs(Number(found[1]!.value) - 0.74)).toBeLessThan(0.3);
    expect(Math.abs(Number(found[0]!.value) - 0.46)).toBeLessThan(0.3);
  });
  it('finds nothing in A or B alone', () => {
    expect(refuseStockSaturation({ NH4: 125, Ca: 450, NO3: 1025 }, {}, 10, 'A')).toEqual([]);
    expect(refuseStockSaturation({ K: 1100, P: 200, SO4: 113, Mg: 100, NO3: 874 }, {}, 10, 'B')).toEqual([]);
  });
  it('counts the calcium of the water', () => {
    const phosphate = { K: 1100, P: 200, SO4: 113, Mg: 100, NO3: 874 };
    expect(refuseStockSaturation(phosphate, { Ca: 12, HCO3: 24 }, 10, 'B').map(({ message }) => message.split(' ')[0])).toContain('brushite');
  });
  it('says when it cannot tell', () => expect(refuseStockSaturation({ K: 9000, NO3: 9000 }, {}, 10, 'A')).toMatchObject([{ code: 'not-converged', severity: 'warning' }]));
});

describe('any stock recipe', () => {
  it('keeps calcium from phosphate and sulfate, acid from chelate, doses acid into water, and holds no NaN', () => {
    const water = fc.record({ Ca: fc.double({ min: 0, max: 4, noNaN: true }), Mg: fc.double({ min: 0, max: 1.5, noNaN: true }), HCO3: fc.double({ min: 0, max: 6, noNaN: true }), Na: fc.double({ min: 0, max: 3, noNaN: true }) });
    const target = fc.record({ NH4: fc.double({ min: 0, max: 2, noNaN: true }), K: fc.double({ min: 0, max: 14, noNaN: true }), Ca: fc.double({ min: 0, max: 8, noNaN: true }), Mg: fc.double({ min: 0, max: 4, noNaN: true }),
      NO3: fc.double({ min: 0, max: 24, noNaN: true }), SO4: fc.double({ min: 0, max: 6, noNaN: true }), P: fc.double({ min: 0, max: 3, noNaN: true }), Fe: fc.double({ min: 0, max: 0.1, noNaN: true }) });
    const offered = fc.subarray(IDS.map(product), { minLength: 1 });
    fc.assert(fc.property(target, water, offered, fc.integer({ min: 20, max: 200 }), (targetMmolPerL, waterMmolPerL, products, concentrationFactor) => {
      const outcome = stockTanks({ targetMmolPerL, waterMmolPerL, products, concentrationFactor, tankVolumeL: 100, coldestC: 8 });
      if (!outcome.ok) return outcome.refusals.length > 0;
      for (const tank of outcome.value.tanks) {
        const groups = new Set(Object.keys(tank.gramsByProduct).flatMap((id) => incompatibilityGroups(product(id))));
        expect(groups.has('calcium') && groups.has('phosphateOrSulfate')).toBe(false);
        expect(groups.has('acid') && groups.has('chelate')).toBe(false);
        for (const grams of Object.values(tank.gramsByProduct)) expect(Number.isFinite(grams) && grams > 0).toBe(true);
      }
      const { achievedMmolPerL } = outcome.value.feed;
      expect(Object.values(achievedMmolPerL).every(Number.isFinite)).toBe(true);
      expect(achievedMmolPerL.HCO3 ?? 0).toBeGreaterThan(-2e-4);
      expect(speciate(achievedMmolPerL, { temperatureC: 20, pH: 5.8 }).ok).toBe(true);
      const { steps } = mixingSheet(outcome.value, products, 100);
      steps.forEach((step, index) => { if (step.productId?.includes('acid-60')) expect(steps[index - 1]!.action).toBe('fill'); });
      return true;
    }), { seed: 11, numRuns: 200 });
  });
});
