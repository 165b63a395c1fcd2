import { accepted, refused, type Outcome, type Refusal } from '../refusal.ts';
import { SPECIES_NAMES } from './equilibriumSystem.ts';
import { MINERAL_IDS, MINERALS } from './minerals.ts';
import { refuseSaturation, saturationIndices, type SaturationIndices } from './saturation.ts';
import { solveEquilibrium, speciatedEcUsPerCm, type Speciation } from './speciation.ts';
import { warnValidity } from './validity.ts';
import { readWaters, type StatedWater } from './waterRequest.ts';

/** What `watermeadow water` says about one water. */
export interface WaterDescription {
  readonly id: string;
  readonly pH: number;
  readonly ionicStrengthMolPerKg: number;
  /** Total alkalinity: bicarbonate, carbonate, hydroxide, and hydrogen phosphate and the like beyond H2PO4-. */
  readonly alkalinityMeqPerKg: number;
  readonly chargeErrorPct: number;
  readonly ecUsPerCm: number;
  /** The same solution brought to 25 C without losing or taking up CO2. */
  readonly ec25UsPerCm: number;
  /** By the mineral's name, and again by the name of its constant, so that results can be laid beside those of other programs. */
  readonly saturationIndex: Readonly<Record<string, number>>;
  readonly speciesMolPerKg: Readonly<Record<string, number>>;
  readonly warnings: readonly Refusal[];
}

/**
 * Full chemistry of a list of waters, from parsed JSON: `{ waters: [{ id, temperatureC, totalsMmolPerKg, pH, chargeAdjust,
 * inorganicCarbonMmolPerKg, alkalinityMeqPerKg, log10PCO2Atm }] }`, amounts per kilogram of water, 0 to 50 C. pH is a number or "charge"
 * (electroneutrality); with a number, chargeAdjust may name the ion that balances the charges. At most one of the last three fixes the
 * carbon; it may also stand among the amounts, as C, HCO3 and the like (inorganic carbon, mmol/kg) or Alkalinity (meq/kg). Refused with every fault of every water at once; nothing is described when one water is wrong.
 */
export function describeWaters(input: unknown): Outcome<{ readonly waters: readonly WaterDescription[] }> {
  const read = readWaters(input);
  if (!read.ok) return read;
  const described = read.value.map((water, index) => describeWater(water, `waters[${index}]`));
  const faults = described.flatMap((outcome) => (outcome.ok ? [] : outcome.refusals));
  return faults.length > 0 ? refused(faults) : accepted({ waters: described.flatMap((outcome) => (outcome.ok ? [outcome.value] : [])) });
}

function describeWater({ id, problem }: StatedWater, path: string): Outcome<WaterDescription> {
  const solved = solveEquilibrium(problem);
  const at25 = solved.ok ? broughtTo25(solved.value) : solved;
  if (!solved.ok || !at25.ok) return refused([...(solved.ok ? [] : solved.refusals), ...(at25.ok || !solved.ok ? [] : at25.refusals)].map((refusal) => placed(refusal, path)));
  const water = solved.value;
  const indices = saturationIndices(water);
  return accepted({
    id,
    pH: water.pH,
    ionicStrengthMolPerKg: water.ionicStrengthMolPerKg,
    alkalinityMeqPerKg: 1000 * water.alkalinityEqPerKg,
    chargeErrorPct: water.chargeErrorPct,
    ecUsPerCm: speciatedEcUsPerCm(water),
    ec25UsPerCm: speciatedEcUsPerCm(at25.value),
    saturationIndex: nameIndices(indices),
    speciesMolPerKg: Object.fromEntries(SPECIES_NAMES.flatMap((name, s) => (water.molPerKg[s]! > 0 ? [[name, water.molPerKg[s]!]] : []))),
    warnings: [...warnValidity(water, path), ...refuseSaturation(indices, 'feed', path).map((refusal): Refusal => ({ ...refusal, severity: 'warning' }))],
  });
}

const placed = (refusal: Refusal, path: string): Refusal => ({ ...refusal, path: refusal.path === '' ? path : `${path}.${refusal.path}` });

/** Warmed or cooled in a closed vessel: amounts, carbon and alkalinity stay. */
export function broughtTo25(water: Speciation): Outcome<Speciation> {
  if (water.temperatureC === 25) return accepted(water);
  return solveEquilibrium({
    temperatureC: 25, totalsMolPerKg: water.totalsMolPerKg,
    protons: { by: 'alkalinity', eqPerKg: water.alkalinityEqPerKg }, carbon: { by: 'total', molPerKg: water.inorganicCarbonMolPerKg }, near: water,
  });
}

function nameIndices(indices: SaturationIndices): Record<string, number> {
  const present = MINERAL_IDS.filter((id) => indices[id] !== undefined);
  return Object.fromEntries([...present.map((id) => [id, indices[id]!]), ...present.map((id) => [MINERALS[id].constantName, indices[id]!])]);
}
