/** How one ion carries current. */
export interface IonMobility {
  readonly charge: number;
  /** Limiting molar conductivity at 25 C, S cm2/mol, charge included. */
  readonly limitingScm2PerMol: number;
  /** Temperature dependence of the diffusion coefficient beside that of the viscosity, K. */
  readonly temperatureK: number;
  /** Ion size in the relaxation and electrophoresis terms, angstrom. */
  readonly sizeA: number;
  /** Power of the relative viscosity. */
  readonly viscosityExponent: number;
  /** Jones-Dole B, L/mol. */
  readonly jonesDoleLPerMol: number;
}

const ion = (charge: number, limitingScm2PerMol: number, temperatureK: number, sizeA: number, viscosityExponent: number, jonesDoleLPerMol: number): IonMobility =>
  ({ charge, limitingScm2PerMol, temperatureK, sizeA, viscosityExponent, jonesDoleLPerMol });

/**
 * Limiting conductivities: CRC Handbook, "Ionic conductivity and diffusion at infinite dilution" (H2PO4-: 33, Marcus 1997, which
 * reproduces the CRC conductivity of KH2PO4). Sizes: fitted to published conductivities of single salts (Shedlovsky 1932;
 * Shedlovsky & Brown 1934; Phang & Stokes 1980; Wu et al. 1991 and others) starting from PHREEQC 3.8.9 (USGS, public domain), from
 * which the viscosity exponents and the ion pairs are taken. Temperature terms: set to Robinson & Stokes' 18 C values (from memory).
 * Jones-Dole B: Jenkins & Marcus 1995 (from memory).
 */
export const ION_MOBILITIES = {
  'H+': ion(1, 349.65, 806, 4.1, 0.206, 0.068),
  'OH-': ion(-1, 198, 560, 0.8695, 0, 0.122),
  'Na+': ion(1, 50.08, 130, 3.4, 0.7037, 0.085),
  'K+': ion(1, 73.48, 310, 3.1, 0.1964, -0.009),
  'NH4+': ion(1, 73.5, 290, 2.8, 0.0681, -0.008),
  'Mg+2': ion(2, 106, 120, 5.7, 1.047, 0.385),
  'Ca+2': ion(2, 118.94, 170, 4.6, 1.046, 0.284),
  'Mn+2': ion(2, 103.35, 120, 3.5, 1, 0.39),
  'Zn+2': ion(2, 107.4, 120, 3.5, 1, 0.361),
  'Cu+2': ion(2, 110.11, 120, 3.5, 1, 0.368),
  'Cl-': ion(-1, 76.31, 240, 2.4, 0.7432, -0.005),
  'NO3-': ion(-1, 71.42, 290, 1.4, 0, -0.043),
  'SO4-2': ion(-2, 160, 140, 8.4, 0.537, 0.206),
  'HCO3-': ion(-1, 44.5, 80, 4.2, 0.359, 0.13),
  'CO3-2': ion(-2, 138.6, 25, 1.992, 0.4515, 0.294),
  'H2PO4-': ion(-1, 33, 60, 3.5, 0.7, 0.34),
  'HPO4-2': ion(-2, 114, 60, 3.5, 0.7, 0.382),
  'PO4-3': ion(-3, 206.85, 0, 3.5, 0.7, 0.59),
  'HSO4-': ion(-1, 52, 150, 3.5, 0.7, 0.127),
  'KSO4-': ion(-1, 50, 150, 3.5, 0.7, 0.1),
  'NaSO4-': ion(-1, 26.8, 100, 3.5, 0.7, 0.1),
  'NH4SO4-': ion(-1, 37.55, 150, 3.5, 0.7, 0.1),
  'CaHCO3+': ion(1, 19, 0, 3.5, 0.7, 0.2),
  'MgHCO3+': ion(1, 17.95, 0, 3.5, 0.7, 0.2),
  /** CRC 149 S cm2/mol; the rest as for an unlisted ion. */
  'MoO4-2': ion(-2, 149, 0, 3.5, 0.7, 0.2),
} as const satisfies Record<string, IonMobility>;

export type MobileIon = keyof typeof ION_MOBILITIES;

/** z^2 D F^2/(RT) with D = 0.6e-9 m2/s, for ions that nobody has measured: pairs, borate, silicate, chelates. */
const UNLISTED_SCM2_PER_MOL = 22.53;

/** The listed ion, or the assumption for an ion of that charge that is not listed. */
export function mobilityOf(symbol: string, charge: number): IonMobility {
  if (Object.hasOwn(ION_MOBILITIES, symbol)) return ION_MOBILITIES[symbol as MobileIon];
  return ion(charge, UNLISTED_SCM2_PER_MOL * charge * charge, 0, 3.5, 0.7, 0.2);
}
