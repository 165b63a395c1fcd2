import { refused, type Outcome } from '../refusal.ts';
import { ionicStrengthMolPerL, type Composition } from './composition.ts';
import { refuseComposition } from './compositionChecks.ts';
import type { CarbonCondition, EquilibriumProblem } from './equilibriumProblem.ts';
import { TOTALS } from './equilibriumSystem.ts';
import { waterPerLitreKg } from './ionConductivity.ts';
import { solveEquilibrium, type Speciation } from './speciation.ts';
import { refuseTemperature } from './validity.ts';
import { waterDensityKgPerL } from './waterProperties.ts';

export interface SpeciationConditions {
  /** Default 25. */
  readonly temperatureC?: number;
  /** Measured pH. Without it, pH follows from the alkalinity (HCO3) and the carbon. */
  readonly pH?: number;
  /**
   * Without it: as much as makes HCO3 of the composition bicarbonate at the measured pH, or, without pH, air of 10^-3.4 atm.
   * 'alkalinity' (with a pH): as much as makes HCO3 the total alkalinity, phosphate included; refused where pH and alkalinity contradict.
   */
  readonly carbon?: { readonly by: 'air'; readonly log10PCO2Atm: number } | { readonly by: 'total'; readonly mmolPerL: number } | { readonly by: 'alkalinity' };
}

/** Partial pressure of CO2 in outdoor air, log10 atm (10^-3.40 = 400 ppm). */
export const AIR_LOG10_PCO2_ATM = -3.4;

/**
 * Speciates a solution given per litre. Charge errors of the analysis do not touch the pH: it is measured, or follows from alkalinity.
 * Refused: negative or missing numbers, temperatures outside 0 to 50 C, ionic strength above 6 mol/kg.
 */
export function speciate(composition: Composition, conditions: SpeciationConditions = {}): Outcome<Speciation> {
  const { temperatureC = 25 } = conditions;
  const faults = [...refuseComposition(composition, 'composition'), ...refuseTemperature(temperatureC, 'temperatureC')];
  return faults.length > 0 ? refused(faults) : solveEquilibrium(statedProblem(composition, conditions));
}

function statedProblem(composition: Composition, conditions: SpeciationConditions): EquilibriumProblem {
  const { temperatureC = 25, pH } = conditions;
  const perKg = 1 / (1000 * waterKgPerL(composition, temperatureC));
  const alkalinity = composition.HCO3 ?? 0;
  return {
    temperatureC,
    totalsMolPerKg: totalsMolPerKg(composition, temperatureC),
    protons: pH === undefined ? { by: 'alkalinity', eqPerKg: alkalinity * perKg } : { by: 'pH', pH },
    carbon: statedCarbon(conditions, alkalinity, perKg),
  };
}

/** Kilograms of water in a litre of the solution. */
export const waterKgPerL = (composition: Composition, temperatureC: number): number =>
  waterPerLitreKg(waterDensityKgPerL(temperatureC), ionicStrengthMolPerL(composition));

/** mol per kilogram of water, in the order of TOTALS. Alkalinity is not among them. */
export function totalsMolPerKg(composition: Composition, temperatureC: number): Float64Array {
  const perKg = 1 / (1000 * waterKgPerL(composition, temperatureC));
  return Float64Array.from(TOTALS, (name) => (composition[name] ?? 0) * perKg);
}

function statedCarbon({ pH, carbon }: SpeciationConditions, bicarbonateMmolPerL: number, perKg: number): CarbonCondition {
  if (carbon?.by === 'air') return carbon;
  if (carbon?.by === 'total') return { by: 'total', molPerKg: carbon.mmolPerL * perKg };
  if (carbon?.by === 'alkalinity' && pH !== undefined) return { by: 'alkalinity', eqPerKg: bicarbonateMmolPerL * perKg };
  if (pH === undefined) return { by: 'air', log10PCO2Atm: AIR_LOG10_PCO2_ATM };
  if (bicarbonateMmolPerL <= 0) return { by: 'none' };
  return { by: 'total', molPerKg: bicarbonateMmolPerL * carbonPerBicarbonate(pH) * perKg };
}

/** Total inorganic carbon over bicarbonate at a pH, with the dissociation constants at 25 C and no ionic strength (within 5 %). */
const carbonPerBicarbonate = (pH: number): number => 1 + 10 ** (6.352 - pH) + 10 ** (pH - 10.329);
