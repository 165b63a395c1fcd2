import { chargeOf, COMPONENT_NAMES, COMPONENTS, type Component } from '../../science/chemistry/components.ts';
import { ionicStrengthMolPerL, type Composition } from '../../science/chemistry/composition.ts';
import { conductivityCoefficients, conductivityUsPerCm, waterPerLitreKg } from '../../science/chemistry/ionConductivity.ts';
import { mobilityOf } from '../../science/chemistry/ionicMobilities.ts';

const CHARGED = COMPONENT_NAMES.filter((name) => chargeOf(name) !== 0);
const AT_25 = conductivityCoefficients(CHARGED.map((name) => mobilityOf(COMPONENTS[name].symbol, chargeOf(name))), 25);
const molPerKg = new Float64Array(CHARGED.length);

/**
 * Conductivity at 25 C, mS/cm, with every component as a free ion: a hundred times faster than full speciation, for
 * following a balance and for slopes; 1 to 4 % high where ions pair, which `pairingFactor` takes out. Amounts below
 * zero (rounding, free acid) count as none.
 */
export function freeIonMsPerCm25(composition: Composition): number {
  const waterKgPerL = waterPerLitreKg(AT_25.waterKgPerL, ionicStrengthMolPerL(composition));
  for (let i = 0; i < CHARGED.length; i++) molPerKg[i] = Math.max(0, composition[CHARGED[i] as Component] ?? 0) / 1000 / waterKgPerL;
  return conductivityUsPerCm(AT_25, molPerKg) / 1000;
}
