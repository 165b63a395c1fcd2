import type { Composition } from './composition.ts';
import { speciate, type SpeciationConditions } from './solutionSpeciation.ts';
import { speciatedEcUsPerCm } from './speciation.ts';

/**
 * Conductivity at a temperature, uS/cm, of the speciated solution: ion pairs and hydrogen ions included. Without pH it is the pH in
 * equilibrium with air. Valid for ionic strength below about 0.1 mol/L; complete nutrient solutions to about 2 %.
 * Throws when the composition cannot be speciated (not a number, negative): check it first with `refuseComposition`.
 */
export function ecUsPerCm(composition: Composition, conditions: SpeciationConditions): number {
  const speciated = speciate(composition, conditions);
  if (!speciated.ok) throw new Error(`no conductivity: ${speciated.refusals.map(({ path, message }) => `${path} ${message}`).join('; ')}`);
  return speciatedEcUsPerCm(speciated.value);
}

/** Conductivity at 25 C, uS/cm: the figure that conductivity meters show. See `ecUsPerCm`. */
export const ec25UsPerCm = (composition: Composition, conditions: Omit<SpeciationConditions, 'temperatureC'> = {}): number =>
  ecUsPerCm(composition, { ...conditions, temperatureC: 25 });
