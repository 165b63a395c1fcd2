import type { IonMobility } from './ionicMobilities.ts';
import { debyeBPerAngstrom, onsagerElectrophoresis, onsagerRelaxation, waterDensityKgPerL, waterViscosityMPaS, ZERO_CELSIUS_K } from './waterProperties.ts';

/** An amount of a mobile ion. */
export interface IonAmount {
  readonly mobility: IonMobility;
  readonly molPerKg: number;
}

/** Everything in the conductivity equations that depends on temperature alone, for a fixed list of ions. */
export interface ConductivityCoefficients {
  readonly temperatureC: number;
  readonly debyeB: number;
  readonly relaxation: number;
  readonly electrophoresis: number;
  readonly waterKgPerL: number;
  /** Limiting conductivity per equivalent at this temperature, S cm2/eq. */
  readonly limiting: Float64Array;
  /** Absolute charges, sizes, viscosity exponents, Jones-Dole B; one entry per ion. */
  readonly chargeAbs: Float64Array;
  readonly sign: Int8Array;
  readonly sizeA: Float64Array;
  readonly viscosityExponent: Float64Array;
  readonly jonesDole: Float64Array;
}

const REFERENCE_C = 25;
const REFERENCE_K = REFERENCE_C + ZERO_CELSIUS_K;

/** Limiting conductivity per equivalent: diffusion follows exp(d/T) over viscosity (Appelo 2017, Cem. Concr. Res. 101, 102, eq. 4). */
function limitingPerEquivalent(mobility: IonMobility, temperatureC: number): number {
  const { limitingScm2PerMol, charge, temperatureK } = mobility;
  const thermal = Math.exp(temperatureK / (temperatureC + ZERO_CELSIUS_K) - temperatureK / REFERENCE_K);
  return (limitingScm2PerMol / Math.abs(charge)) * thermal * (waterViscosityMPaS(REFERENCE_C) / waterViscosityMPaS(temperatureC));
}

/** Prepare a list of ions for conductivities at one temperature, 0 to 50 C (checked to 0.3 % on KCl standards from 15 to 35 C). */
export function conductivityCoefficients(ions: readonly IonMobility[], temperatureC: number): ConductivityCoefficients {
  return {
    temperatureC,
    debyeB: debyeBPerAngstrom(temperatureC),
    relaxation: onsagerRelaxation(temperatureC),
    electrophoresis: onsagerElectrophoresis(temperatureC),
    waterKgPerL: waterDensityKgPerL(temperatureC),
    limiting: Float64Array.from(ions, (ion) => limitingPerEquivalent(ion, temperatureC)),
    chargeAbs: Float64Array.from(ions, (ion) => Math.abs(ion.charge)),
    sign: Int8Array.from(ions, (ion) => Math.sign(ion.charge)),
    sizeA: Float64Array.from(ions, (ion) => ion.sizeA),
    viscosityExponent: Float64Array.from(ions, (ion) => ion.viscosityExponent),
    jonesDole: Float64Array.from(ions, (ion) => ion.jonesDoleLPerMol),
  };
}

/** Kilograms of water in a litre of solution, for ionic strength below 0.1 mol/kg (within 0.1 %): the salts take the place of some water. */
export const waterPerLitreKg = (pureWaterKgPerL: number, ionicStrengthMolPerKg: number): number =>
  pureWaterKgPerL - 0.02 * ionicStrengthMolPerKg;

/**
 * Conductivity in uS/cm at the temperature of the coefficients: Debye-Hueckel-Onsager per ion, summed after Kohlrausch.
 * `molPerKg[i]` belongs to ion i of the coefficients. Valid to an ionic strength of about 0.1 mol/kg.
 * Source: Onsager & Fuoss 1932, J. Phys. Chem. 36, 2689; in the form of Appelo 2017 with the sum of the ions' own
 * conductivities instead of his mixing rule. Zero where no ions are.
 */
export function conductivityUsPerCm(c: ConductivityCoefficients, molPerKg: ArrayLike<number>): number {
  const n = c.limiting.length;
  // Mean charges and mean mobilities of cations and anions.
  let strength = 0, catM = 0, catQ = 0, catL = 0, anM = 0, anQ = 0, anL = 0, jonesDole = 0;
  for (let i = 0; i < n; i += 1) {
    const m = molPerKg[i]!, z = c.chargeAbs[i]!;
    if (m === 0) continue;
    strength += 0.5 * m * z * z;
    jonesDole += m * c.jonesDole[i]!;
    if (c.sign[i]! > 0) { catM += m; catQ += m * z; catL += m * c.limiting[i]!; }
    else { anM += m; anQ += m * z; anL += m * c.limiting[i]!; }
  }
  if (catM === 0 || anM === 0) return 0;
  const zCat = catQ / catM, zAn = anQ / anM, mobCat = catL / catM, mobAn = anL / anM;
  const t1 = mobCat / (mobCat + mobAn);
  const q = 1 / ((t1 / zCat + (1 - t1) / zAn) * (zCat + zAn));
  // Relaxation, electrophoresis, viscosity.
  const root = Math.sqrt(strength);
  const b1 = ((c.relaxation * q) / (1 + Math.sqrt(q))) * zCat * zAn * root;
  const b2 = c.electrophoresis * root;
  const water = waterPerLitreKg(c.waterKgPerL, strength);
  const relativeViscosity = 1 + 0.005 * root + jonesDole * water;
  let sum = 0;
  for (let i = 0; i < n; i += 1) {
    const m = molPerKg[i]!;
    if (m === 0) continue;
    const z = c.chargeAbs[i]!;
    const ka = 1 + c.debyeB * c.sizeA[i]! * root;
    sum += (c.limiting[i]! - (b2 * z) / ka) * (1 - b1 / (ka * ka)) * relativeViscosity ** -c.viscosityExponent[i]! * z * m;
  }
  return 1000 * sum * water;
}
