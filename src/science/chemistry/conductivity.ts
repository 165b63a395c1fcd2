import { entriesOf, ionicStrengthMolPerL, type Composition } from './composition.ts';
import { chargeOf, COMPONENT_NAMES, COMPONENTS } from './components.ts';
import { conductivityCoefficients, conductivityUsPerCm, waterPerLitreKg } from './ionConductivity.ts';
import { mobilityOf, type IonMobility } from './ionicMobilities.ts';
import { debyeA, debyeBPerAngstrom, waterDensityKgPerL } from './waterProperties.ts';

/** The charged components as ions of their own, then H+. */
const CHARGED = COMPONENT_NAMES.filter((name) => chargeOf(name) !== 0);
const IONS: readonly IonMobility[] = [...CHARGED.map((name) => mobilityOf(COMPONENTS[name].symbol, chargeOf(name))), mobilityOf('H+', 1)];
const PROTON = CHARGED.length;

interface ConductivityConditions {
  /** Adds the hydrogen ions that go with it; without it they are left out (below pH 4.5 that matters). */
  readonly pH?: number;
}

/**
 * Conductivity at a temperature, uS/cm, with every component as a free ion: no ion pairs, so it reads 1 to 4 % high where
 * calcium or magnesium meets sulfate. Valid for ionic strength below about 0.1 mol/L and 0 to 50 C.
 */
export function unpairedEcUsPerCm(composition: Composition, conditions: ConductivityConditions & { readonly temperatureC: number }): number {
  const { temperatureC, pH } = conditions;
  const strength = ionicStrengthMolPerL(composition);
  const waterKgPerL = waterPerLitreKg(waterDensityKgPerL(temperatureC), strength);
  const molPerKg = new Float64Array(IONS.length);
  for (const [name, mmolPerL] of entriesOf(composition)) {
    const place = mmolPerL < 0 ? PROTON : CHARGED.indexOf(name);
    if (place >= 0) molPerKg[place]! += Math.abs(mmolPerL) / 1000 / waterKgPerL;
  }
  if (pH !== undefined) molPerKg[PROTON] = protonMolPerKg(pH, strength, temperatureC);
  return conductivityUsPerCm(conductivityCoefficients(IONS, temperatureC), molPerKg);
}

/** Concentration from activity with the extended Debye-Hueckel equation, size 9 A (Kielland 1937). */
function protonMolPerKg(pH: number, strength: number, temperatureC: number): number {
  const root = Math.sqrt(strength);
  return 10 ** (-pH + (debyeA(temperatureC) * root) / (1 + debyeBPerAngstrom(temperatureC) * 9 * root));
}

/** Conductivity at 25 C, uS/cm. The figure that conductivity meters show. See `unpairedEcUsPerCm` for what is left out. */
export const ec25UsPerCm = (composition: Composition, conditions: ConductivityConditions = {}): number =>
  unpairedEcUsPerCm(composition, { ...conditions, temperatureC: 25 });
