import { describe, expect, it } from 'vitest';
import * as fc from 'fast-check';
import {
  addCompositions, anionSumMeqPerL, cationSumMeqPerL, chargeBalanceMeqPerL, chargeErrorPct, COMPONENT_NAMES, COMPONENTS, entriesOf,
  ionicStrengthMolPerL, isComponent, maxComposition, mixSolutions, scaleComposition, subtractCompositions, type Composition,
} from './composition.ts';

const LETTUCE: Composition = { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2 };

describe('composition', () => {
  // The recipes' own sums, meq/L: Sonneveld & Straver 1994 and Hoagland & Arnon 1950 (from memory; each closes to zero).
  it.each([
    ['lettuce', LETTUCE, 23.25],
    ['tomato, open', { NH4: 1.2, K: 9.5, Ca: 5.4, Mg: 2.4, NO3: 16, SO4: 4.4, P: 1.5 }, 26.3],
    ['pepper, recirculating', { NH4: 0.5, K: 5.75, Ca: 3.5, Mg: 1.125, NO3: 12.5, SO4: 1, P: 1 }, 15.5],
    ['Hoagland 2', { NH4: 1, K: 6, Ca: 4, Mg: 2, NO3: 14, SO4: 2, P: 1 }, 19],
  ])('%s closes electrically', (_name, recipe, sum) => {
    expect(cationSumMeqPerL(recipe)).toBeCloseTo(sum, 10);
    expect(anionSumMeqPerL(recipe)).toBeCloseTo(sum, 10);
    expect(chargeBalanceMeqPerL(recipe)).toBeCloseTo(0, 10);
    expect(chargeErrorPct(recipe)).toBeCloseTo(0, 10);
  });

  it('states the charge error against the sum of both', () => {
    expect(chargeErrorPct({ K: 10.5, Cl: 9.5 })).toBeCloseTo(5, 10);
    expect(chargeErrorPct({ B: 1 })).toBeUndefined();
  });
  it('counts free acid as a cation', () => expect(chargeBalanceMeqPerL({ NO3: 2, HCO3: -2 })).toBeCloseTo(0, 12));
  it('carries the charges of nutrient pH', () => {
    expect(COMPONENT_NAMES.map((name) => `${name}${COMPONENTS[name].charge}`).join(' ')).toBe(
      'NH41 K1 Ca2 Mg2 Na1 NO3-1 Cl-1 SO4-2 P-1 HCO3-1 Si0 Fe-1 Mn2 Zn2 Cu2 B0 Mo-2');
  });
  it('computes ionic strength', () => {
    expect(ionicStrengthMolPerL({ K: 10, Cl: 10 })).toBeCloseTo(0.01, 12);
    expect(ionicStrengthMolPerL({ Ca: 5, Cl: 10 })).toBeCloseTo(0.015, 12);
  });
  it('adds, subtracts, scales, takes the larger', () => {
    expect(addCompositions({ K: 1 }, { K: 2, Ca: 1 })).toEqual({ K: 3, Ca: 1 });
    expect(subtractCompositions({ K: 3 }, { K: 1, Cl: 1 })).toEqual({ K: 2, Cl: -1 });
    expect(scaleComposition({ K: 3, Mg: 1 }, 0.5)).toEqual({ K: 1.5, Mg: 0.5 });
    expect(maxComposition({ K: 3, Mg: 1 }, { K: 1, Mg: 2 })).toEqual({ K: 3, Mg: 2 });
  });
  it('knows its own names only', () => {
    expect(isComponent('NO3')).toBe(true);
    expect(isComponent('toString')).toBe(false);
  });
  it('keeps absent components absent', () => expect(entriesOf({ K: 0 })).toEqual([['K', 0]]));

  it('mixes by volume', () => {
    const mixed = mixSolutions([{ volumeL: 300, mmolPerL: { K: 1, Na: 2 } }, { volumeL: 100, mmolPerL: { K: 5 } }]);
    expect(mixed.volumeL).toBe(400);
    expect(mixed.mmolPerL).toEqual({ K: 2, Na: 1.5 });
    expect(() => mixSolutions([])).toThrow('volume above zero');
  });
  it('conserves every component on mixing', () => {
    const part = fc.record({ volumeL: fc.double({ min: 1e-3, max: 1e4, noNaN: true }), k: fc.double({ min: 0, max: 1e3, noNaN: true }) });
    fc.assert(fc.property(fc.array(part, { minLength: 1, maxLength: 8 }), (parts) => {
      const mixed = mixSolutions(parts.map(({ volumeL, k }) => ({ volumeL, mmolPerL: { K: k } })));
      const before = parts.reduce((sum, { volumeL, k }) => sum + volumeL * k, 0);
      expect(mixed.volumeL * (mixed.mmolPerL.K ?? 0)).toBeCloseTo(before, 6);
    }), { seed: 1 });
  });
});
