import { formationConstants, SPECIES_CHARGE, SPECIES_NAMES } from './equilibriumSystem.ts';
import { log10KAt } from './equilibriumConstant.ts';
import { conductivityCoefficients, type ConductivityCoefficients } from './ionConductivity.ts';
import { mobilityOf } from './ionicMobilities.ts';
import { CARBON_DIOXIDE_SOLUBILITY } from './species.ts';
import { debyeA, debyeBPerAngstrom } from './waterProperties.ts';

/** Everything in the equations that depends on temperature alone. */
export interface EquilibriumConditions {
  readonly temperatureC: number;
  /** Formation constant of each species from sulfate, H2PO4-, CO2, H+ and its carrier. */
  readonly formationConstants: Float64Array;
  readonly debyeA: number;
  readonly debyeB: number;
  /** ln of the activity of dissolved CO2 at one atmosphere of it. */
  readonly lnCarbonDioxideSolubility: number;
  readonly conductivity: ConductivityCoefficients;
}

/** The charged species, which are those that conduct. */
export const IONIC_SPECIES = Int32Array.from([...SPECIES_CHARGE.keys()].filter((s) => SPECIES_CHARGE[s] !== 0));
const MOBILITIES = [...IONIC_SPECIES].map((s) => mobilityOf(SPECIES_NAMES[s]!, SPECIES_CHARGE[s]!));

/** A greenhouse has few temperatures at a time; the last ones are kept because they are asked for again and again. */
const KEPT = 16;
const kept = new Map<number, EquilibriumConditions>();

/** The constants at a temperature, 0 to 50 C. */
export function equilibriumConditions(temperatureC: number): EquilibriumConditions {
  const known = kept.get(temperatureC);
  if (known !== undefined) return known;
  if (kept.size >= KEPT) kept.delete(kept.keys().next().value!);
  const made = makeConditions(temperatureC);
  kept.set(temperatureC, made);
  return made;
}

function makeConditions(temperatureC: number): EquilibriumConditions {
  const log10K = formationConstants((species) => log10KAt(species.constant, temperatureC));
  return {
    temperatureC,
    formationConstants: log10K.map((value) => 10 ** value),
    debyeA: debyeA(temperatureC),
    debyeB: debyeBPerAngstrom(temperatureC),
    lnCarbonDioxideSolubility: Math.LN10 * log10KAt(CARBON_DIOXIDE_SOLUBILITY, temperatureC),
    conductivity: conductivityCoefficients(MOBILITIES, temperatureC),
  };
}
