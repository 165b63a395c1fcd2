import { accepted, refused, type Outcome } from '../refusal.ts';
import { mixSolutions, type Composition } from './composition.ts';
import { refuseComposition, refuseNotPositive } from './compositionChecks.ts';
import { speciate } from './solutionSpeciation.ts';
import type { Speciation } from './speciation.ts';
import { refuseTemperature } from './validity.ts';
import { waterDensityKgPerL } from './waterProperties.ts';

/** A volume of water with everything that mixing conserves. */
export interface WaterVolume {
  readonly volumeL: number;
  readonly temperatureC: number;
  /** HCO3 is the total alkalinity. */
  readonly mmolPerL: Composition;
  readonly inorganicCarbonMmolPerL: number;
}

export interface WaterMixture extends WaterVolume {
  readonly speciation: Speciation;
}

/**
 * What results when waters are put together without losing heat or carbon dioxide: volumes, components, alkalinity, inorganic carbon
 * and heat (mass times temperature; the heat capacity of water changes by less than 0.3 %) add up, and the pH follows from them.
 * Refused: malformed parts, no volume. Left out: heat of dilution (concentrated acid warms its water), volume change on mixing.
 */
export function mixWaters(parts: readonly WaterVolume[]): Outcome<WaterMixture> {
  const faults = parts.flatMap((part, index) => [
    ...refuseNotPositive(part.volumeL, `parts[${index}].volumeL`, 'L'), ...refuseTemperature(part.temperatureC, `parts[${index}].temperatureC`),
    ...refuseComposition(part.mmolPerL, `parts[${index}].mmolPerL`),
  ]);
  if (parts.length === 0) return refused([{ code: 'value-missing', path: 'parts', message: 'a mixture needs at least one part', severity: 'error' }]);
  if (faults.length > 0) return refused(faults);
  const { volumeL, mmolPerL } = mixSolutions(parts);
  const temperatureC = mixedTemperatureC(parts);
  const inorganicCarbonMmolPerL = parts.reduce((sum, part) => sum + part.volumeL * part.inorganicCarbonMmolPerL, 0) / volumeL;
  const speciated = speciate(mmolPerL, { temperatureC, carbon: { by: 'total', mmolPerL: inorganicCarbonMmolPerL } });
  return speciated.ok ? accepted({ volumeL, temperatureC, mmolPerL, inorganicCarbonMmolPerL, speciation: speciated.value }) : speciated;
}

function mixedTemperatureC(parts: readonly WaterVolume[]): number {
  const masses = parts.map(({ volumeL, temperatureC }) => volumeL * waterDensityKgPerL(temperatureC));
  const heat = parts.reduce((sum, { temperatureC }, index) => sum + masses[index]! * temperatureC, 0);
  return heat / masses.reduce((a, b) => a + b, 0);
}
