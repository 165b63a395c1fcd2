import * as fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { describeWaters, type WaterDescription } from './describeWaters.ts';
import { componentNamed } from './waterRequest.ts';

function described(input: unknown): readonly WaterDescription[] {
  const outcome = describeWaters(input);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value.waters;
}
const faultsOf = (input: unknown): string[] => { const outcome = describeWaters(input); return outcome.ok ? [] : outcome.refusals.map(({ code, path }) => `${code} ${path}`); };
const WATER = { id: 'w', temperatureC: 20, totalsMmolPerKg: { Ca: 2, Cl: 1, HCO3: undefined }, pH: 7.2, chargeAdjust: null, inorganicCarbonMmolPerKg: null, alkalinityMeqPerKg: 3, log10PCO2Atm: null };
const lettuce = { id: 'lettuce', temperatureC: 20, pH: 5.8, chargeAdjust: 'K', log10PCO2Atm: -3.4,
  totalsMmolPerKg: { NH4: 1.25, K: 11, Ca: 4.5, Mg: 1, NO3: 19, SO4: 1.125, P: 2 } };

describe('describeWaters', () => {
  const file = 'test/chemistry/cases.json';
  it('gives what PHREEQC 3.8.9 gives for every reference water, in the form of the command', () => {
    const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Record<string, unknown>[] };
    const waters = described({ waters: cases.map((c) => ({ id: c.id, temperatureC: c.temp_C, totalsMmolPerKg: c.totals_mmol_per_kgw, pH: c.pH, chargeAdjust: c.charge_adjust,
      inorganicCarbonMmolPerKg: c.C_total, alkalinityMeqPerKg: c.alkalinity, log10PCO2Atm: c.log10_pCO2_atm })) });
    expect(waters).toHaveLength(cases.length);
    waters.forEach((water, index) => {
      const { hydro } = cases[index]!.outputs as { hydro: { pH: number; ionic_strength_mol_kgw: number; SI: Record<string, number> } };
      expect(Math.abs(water.pH - hydro.pH)).toBeLessThan(0.005);
      expect(Math.abs(water.ionicStrengthMolPerKg / hydro.ionic_strength_mol_kgw - 1)).toBeLessThan(0.002);
      for (const [mineral, index] of Object.entries(hydro.SI)) expect(Math.abs(water.saturationIndex[mineral]! - index), `${water.id} ${mineral}`).toBeLessThan(0.01);
    });
    console.log(`describeWaters: ${cases.length} waters of PHREEQC 3.8.9 within pH 0.005, saturation index 0.01, ionic strength 0.2 %`);
  });

  it('says everything about a lettuce solution', () => {
    const [water] = described({ waters: [lettuce] });
    expect(Object.keys(water!)).toEqual(['id', 'pH', 'ionicStrengthMolPerKg', 'alkalinityMeqPerKg', 'chargeErrorPct', 'ecUsPerCm', 'ec25UsPerCm', 'saturationIndex', 'speciesMolPerKg', 'warnings']);
    // The additive method gives 2438 uS/cm at 20 C and the ratio 0.9053 to 25 C.
    expect(water!.ecUsPerCm).toBeCloseTo(2438, -0.5);
    expect(water!.ecUsPerCm / water!.ec25UsPerCm).toBeCloseTo(0.9053, 2.7);
    expect(water!.chargeErrorPct).toBeCloseTo(0, 6);
    expect(water!.saturationIndex.brushite).toBe(water!.saturationIndex.Brushite_G70);
    expect(water!.speciesMolPerKg['NO3-']).toBe(0.019);
    expect(water!.speciesMolPerKg['Na+']).toBeUndefined();
    expect(water!.warnings).toEqual([]);
  });
  // Lettuce solution at 22 C: brushite index 0 at about pH 6.15, 0.25 at 6.5, 0.53 at 7.1; below -0.4 at 5.6 (computed independently).
  it.each([[5.6, -0.48], [5.9, -0.21], [6.15, 0], [6.5, 0.25], [7.1, 0.53], [7.7, 0.63]])('brushite at pH %f', (pH, index) => {
    const [water] = described({ waters: [{ ...lettuce, temperatureC: 22, pH }] });
    expect(water!.saturationIndex.brushite).toBeCloseTo(index, 1.5);
    if (index !== 0) expect(water!.warnings.some(({ code }) => code === 'not-soluble')).toBe(index > 0);
  });
  it('warns about charges, concentration and pH', () => {
    const [off, stock, acid] = described({ waters: [
      { id: 'off', temperatureC: 25, totalsMmolPerKg: { K: 5, Cl: 4 }, pH: 6 },
      { id: 'stock', temperatureC: 20, totalsMmolPerKg: { K: 1000, NO3: 1000 }, pH: 'charge' },
      { id: 'acid', temperatureC: 20, totalsMmolPerKg: { NO3: 20 }, pH: 'charge' },
    ] });
    expect(off!.warnings).toMatchObject([{ code: 'value-out-of-range', limit: 5, unit: '%' }]);
    expect(stock!.warnings).toMatchObject([{ limit: 0.5, unit: 'mol/kg' }]);
    expect(acid!.warnings).toMatchObject([{ unit: '[pH]' }]);
    const [strong] = described({ waters: [{ id: 's', temperatureC: 20, totalsMmolPerKg: { K: 200, NO3: 200 }, pH: 'charge' }] });
    expect(strong!.warnings).toMatchObject([{ limit: 0.1, unit: 'mol/kg' }]);
  });
  it('reads every way of naming an ion', () => {
    expect(['N(-3)', 'NH4+', 'N(5)', 'NO3-', 'S(6)', 'SO4-2', 'PO4-3', 'H2PO4-', 'Ca+2', 'Mn(2)', 'Cu+2', 'SiO2', 'Mo'].map(componentNamed)).toEqual(
      ['NH4', 'NH4', 'NO3', 'NO3', 'SO4', 'SO4', 'P', 'P', 'Ca', 'Mn', 'Cu', 'Si', 'Mo']);
    expect(['Mg2+', 'SO42-', 'SO4--', 'Ca++', 'PO43-', 'PO4---', 'P(5)', 'K(1)', 'B(OH)3', 'Mo(6)', 'Fe', 'S', 'H3PO4'].map(componentNamed)).toEqual(
      ['Mg', 'SO4', 'SO4', 'Ca', 'P', 'P', 'P', 'K', 'B', 'Mo', 'Fe', 'SO4', 'P']);
    expect(['Fe+2', 'Fe3+', 'Fe(3)', 'Fe++', 'Al', '2-', '+', ''].map(componentNamed)).toEqual(Array(8).fill(undefined));
    expect(['N', 'C', 'HCO3', 'Xx', 'toString', 'constructor'].map(componentNamed)).toEqual([undefined, undefined, undefined, undefined, undefined, undefined]);
  });
  it('refuses all faults of all waters at once', () => {
    expect(faultsOf({ waters: [
      { ...WATER, id: '', temperatureC: 80, totalsMmolPerKg: { Ca: -1, N: 1, Al: 2, K: '3', 'N(5)': 1, NO3: 2 }, pH: 'acid', chargeAdjust: 'B', color: 1 },
      { ...WATER, pH: 'charge', chargeAdjust: 'K', inorganicCarbonMmolPerKg: -1 }, 7,
    ], more: 1 })).toEqual([
      'key-unknown more', 'key-unknown waters[0].color', 'value-missing waters[0].id', 'value-out-of-range waters[0].temperatureC',
      'value-out-of-range waters[0].totalsMmolPerKg.Ca', 'key-unknown waters[0].totalsMmolPerKg.N', 'key-unknown waters[0].totalsMmolPerKg.Al',
      'value-not-a-number waters[0].totalsMmolPerKg.K', 'duplicate waters[0].totalsMmolPerKg.NO3', 'value-not-allowed waters[0].pH', 'value-not-allowed waters[0].chargeAdjust',
      'value-not-a-number waters[1].totalsMmolPerKg.HCO3', 'value-out-of-range waters[1].inorganicCarbonMmolPerKg', 'inconsistent waters[1].chargeAdjust',
      'inconsistent waters[1]', 'inconsistent waters[1].alkalinityMeqPerKg', 'value-not-allowed waters[2]']);
    expect(faultsOf([])).toEqual(['value-missing waters']);
    expect(faultsOf(null)).toEqual(['value-missing waters']);
    expect(faultsOf({ waters: [lettuce, lettuce] })).toEqual(['duplicate waters[1].id']);
    expect(faultsOf({ waters: [{ ...lettuce, pH: 15, log10PCO2Atm: 5, temperatureC: '20', totalsMmolPerKg: null, alkalinityMeqPerKg: 'x' }] })).toEqual([
      'value-not-a-number waters[0].temperatureC', 'value-missing waters[0].totalsMmolPerKg', 'value-out-of-range waters[0].pH',
      'value-not-a-number waters[0].alkalinityMeqPerKg', 'value-out-of-range waters[0].log10PCO2Atm', 'inconsistent waters[0]']);
  });
  it('reads carbon among the amounts as it reads it beside them', () => {
    const water = { id: 'w', temperatureC: 15, pH: 7.6, chargeAdjust: 'Cl' };
    const totals = { Ca: 2.5, Mg: 0.6, Na: 1.5, K: 0.1, SO4: 0.8, Cl: 1.55, NO3: 0.15 };
    const both = (beside: object, among: object) => described({ waters: [{ ...water, totalsMmolPerKg: totals, ...beside }, { ...water, id: 'x', totalsMmolPerKg: { ...totals, ...among } }] }).map(({ id: _id, warnings: _warnings, ...rest }) => rest);
    for (const name of ['C', 'C(4)', 'HCO3-', 'HCO3', 'CO3-2', 'CO2']) { const [one, other] = both({ inorganicCarbonMmolPerKg: 4.7 }, { [name]: 4.7 }); expect(other).toEqual(one); }
    const [one, other] = both({ alkalinityMeqPerKg: 4.5 }, { Alkalinity: 4.5 });
    expect(other).toEqual(one);
    expect(one!.alkalinityMeqPerKg).toBeCloseTo(4.5, 9);
    expect(faultsOf({ waters: [{ ...water, log10PCO2Atm: -3.4, totalsMmolPerKg: { ...totals, HCO3: 1 } }, { ...water, id: 'x', totalsMmolPerKg: { ...totals, HCO3: 1, CO3: 1 } }] })).toEqual(
      ['inconsistent waters[0]', 'duplicate waters[1].totalsMmolPerKg.CO3', 'inconsistent waters[1]']);
  });
  it('says in its refusals what was found, in meq/kg, and warms a water to 25 C', () => {
    const outcome = describeWaters({ waters: [{ id: 'w', temperatureC: 25, totalsMmolPerKg: { K: 5, Cl: 1 }, pH: 7, alkalinityMeqPerKg: -1 }] });
    expect(outcome.ok ? [] : outcome.refusals).toMatchObject([{ path: 'waters[0].alkalinityMeqPerKg', value: -1, unit: 'meq/kg' }]);
    const [off] = described({ waters: [{ id: 'w', temperatureC: 25, totalsMmolPerKg: { K: 5, Cl: 4 }, pH: 7 }] });
    // (5 - 4)/(5 + 4) of the charges.
    expect(off!.chargeErrorPct).toBeCloseTo(100 / 9, 2);
    expect(off!.ec25UsPerCm).toBe(off!.ecUsPerCm);
    const [cold] = described({ waters: [{ id: 'w', temperatureC: 15, totalsMmolPerKg: { K: 10, Cl: 10 }, pH: 7 }] });
    // KCl 0.01 mol/kg: 1408.23 uS/cm at 25 C (Wu, Koch & Pratt 1991).
    expect(Math.abs(cold!.ec25UsPerCm / 1408.23 - 1)).toBeLessThan(0.003);
  });
  it('takes the limits of its fields to the digit', () => {
    const ok = (change: object): boolean => faultsOf({ waters: [{ id: 'w', temperatureC: 25, totalsMmolPerKg: { K: 1, Cl: 1 }, pH: 6, ...change }] }).length === 0;
    expect([ok({ log10PCO2Atm: -12 }), ok({ log10PCO2Atm: -12.01 }), ok({ log10PCO2Atm: 1.01 })]).toEqual([true, false, false]);
    expect([ok({ temperatureC: 0 }), ok({ temperatureC: 50 }), ok({ temperatureC: -0.1 }), ok({ temperatureC: 50.1 })]).toEqual([true, true, false, false]);
    expect([ok({ pH: 0, totalsMmolPerKg: {} }), ok({ pH: 14.1 }), ok({ pH: -0.1 })]).toEqual([true, false, false]);
    expect([ok({ inorganicCarbonMmolPerKg: 1000 }), ok({ inorganicCarbonMmolPerKg: 1001 }), ok({ alkalinityMeqPerKg: 1001 }), ok({ alkalinityMeqPerKg: -1001 })]).toEqual([true, false, false, false]);
  });
  it('names the water that has no solution', () => {
    expect(faultsOf({ waters: [{ ...lettuce, chargeAdjust: 'NO3', totalsMmolPerKg: { Cl: 5 } }] })).toEqual(['infeasible waters[0].chargeAdjust']);
  });
  it('answers anything with numbers or refusals, never NaN, never an exception', () => {
    const name = fc.constantFrom('K', 'Ca', 'Mg', 'NH4', 'Na', 'NO3', 'SO4', 'P', 'Cl', 'Si', 'Mn', 'B', 'N', 'C');
    const amount = fc.oneof(fc.double({ min: 0, max: 40, noNaN: true }), fc.constantFrom(-1, Number.NaN, '3', null, 1e9, 1e-300));
    const optional = fc.oneof({ weight: 3, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.double({ min: -6, max: 8, noNaN: true }) });
    const water = fc.record({ id: fc.constantFrom('a', 'b'), temperatureC: fc.double({ min: -5, max: 55, noNaN: true }), totalsMmolPerKg: fc.dictionary(name, amount, { maxKeys: 6 }),
      pH: fc.oneof(fc.constant('charge'), fc.double({ min: 2, max: 12, noNaN: true })), chargeAdjust: fc.constantFrom(null, null, 'K', 'Cl', 'x'),
      inorganicCarbonMmolPerKg: optional, alkalinityMeqPerKg: optional, log10PCO2Atm: optional });
    fc.assert(fc.property(water, (w) => {
      const outcome = describeWaters({ waters: [w] });
      if (!outcome.ok) return outcome.refusals.length > 0;
      const [d] = outcome.value.waters;
      return [d!.pH, d!.ionicStrengthMolPerKg, d!.alkalinityMeqPerKg, d!.chargeErrorPct, d!.ecUsPerCm, d!.ec25UsPerCm, ...Object.values(d!.saturationIndex), ...Object.values(d!.speciesMolPerKg)].every(Number.isFinite);
    }), { seed: 3, numRuns: 300 });
  });
});
