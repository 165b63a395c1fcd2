import { describe, expect, it } from 'vitest';
import { speciate, totalsMolPerKg, waterKgPerL, type SpeciationConditions } from './solutionSpeciation.ts';
import type { Composition } from './composition.ts';

const TAP: Composition = { Ca: 2.5, Mg: 0.6, Na: 1.5, K: 0.1, SO4: 0.8, Cl: 1.55, NO3: 0.15, HCO3: 4.5 };
function solved(conditions?: SpeciationConditions, composition = TAP) {
  const outcome = speciate(composition, conditions);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}

describe('speciation of a solution per litre', () => {
  it('is at 25 C and in outdoor air where nothing is said', () => {
    expect(solved()).toEqual(solved({ temperatureC: 25, carbon: { by: 'air', log10PCO2Atm: -3.4 } }));
    expect(solved({ pH: 7 }).temperatureC).toBe(25);
  });
  it('counts per kilogram of water: a litre of 0.1 mol/L KCl at 25 C holds 0.995 kg of it', () => {
    // Kell 1975: 0.99705 kg/L, less 0.02 times the ionic strength for the salt.
    expect(waterKgPerL({ K: 100, Cl: 100 }, 25)).toBeCloseTo(0.99705 - 0.002, 4.9);
    expect(totalsMolPerKg({ K: 100, Cl: 100 }, 25)[1]).toBeCloseTo(0.1 / (0.99705 - 0.002), 5);
  });
  // Inorganic carbon over bicarbonate from pK 6.352 and 10.329 (Plummer & Busenberg 1982), by hand: 1 + 10^(6.352 - pH) + 10^(pH - 10.329).
  it.each([[6, 1 + 2.24905 + 0.0000469], [7, 1 + 0.224905 + 0.000468813], [10.5, 1 + 0.0000711 + 1.482518]])('takes the carbon of its bicarbonate at pH %f', (pH, ratio) => {
    const water = solved({ pH });
    expect(water.inorganicCarbonMolPerKg / ((TAP.HCO3! / 1000) / waterKgPerL(TAP, 25))).toBeCloseTo(ratio, 4);
  });
});
