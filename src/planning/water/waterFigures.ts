import type { Composition } from '../../science/chemistry/composition.ts';
import { saturationIndices, type SaturationIndices } from '../../science/chemistry/saturation.ts';
import { speciate } from '../../science/chemistry/solutionSpeciation.ts';
import { speciatedEcUsPerCm } from '../../science/chemistry/speciation.ts';
import { freeIonMsPerCm25 } from './freeIonConductivity.ts';

/** Carbon dioxide in the water of a basin full of roots, log10 atm: common practice, no source (outdoor air is -3.4). */
export const ROOT_LOG10_PCO2_ATM = -2.7;
const BASIN_CO2 = { by: 'air', log10PCO2Atm: ROOT_LOG10_PCO2_ATM } as const;

export interface WaterFigures {
  readonly ecMsPerCm25: number;
  /** At the carbon dioxide of a basin; absent where the water cannot be speciated. */
  readonly pH?: number;
  readonly saturation: SaturationIndices;
}

/**
 * Conductivity, pH and saturation of a water in a basin, from full speciation at 25 C with its alkalinity (HCO3; none
 * stated counts as zero). Where speciation refuses, conductivity without ion pairs (1 to 4 % high) and no pH.
 */
export function waterFigures(mmolPerL: Composition): WaterFigures {
  const solved = speciate(nonNegative(mmolPerL), { carbon: BASIN_CO2 });
  if (!solved.ok) return { ecMsPerCm25: freeIonMsPerCm25(mmolPerL), saturation: {} };
  return { ecMsPerCm25: speciatedEcUsPerCm(solved.value) / 1000, pH: solved.value.pH, saturation: saturationIndices(solved.value) };
}

/** Alkalinity that the water must have to stand at this pH in a basin, meq/L; absent where that cannot be computed. */
export function alkalinityAtPH(mmolPerL: Composition, pH: number): number | undefined {
  const solved = speciate(nonNegative({ ...mmolPerL, HCO3: 0 }), { pH, carbon: BASIN_CO2 });
  return solved.ok ? 1000 * solved.value.alkalinityEqPerKg : undefined;
}

/** Conductivity with ion pairs over that without, for waters of about these proportions. */
export function pairingFactor(mmolPerL: Composition): number {
  const free = freeIonMsPerCm25(mmolPerL);
  return free > 0 ? waterFigures(mmolPerL).ecMsPerCm25 / free : 1;
}

/** Rounding of a balance may leave an amount below zero by its last digit. */
function nonNegative(mmolPerL: Composition): Composition {
  return Object.fromEntries(Object.entries(mmolPerL).map(([name, value]) => [name, name === 'HCO3' ? value : Math.max(0, value)])) as Composition;
}
