/** Pure water at atmospheric pressure, 0 to 50 C. Each function: temperature in C in, one property out. */

export const ZERO_CELSIUS_K = 273.15;

/** Density, kg/L. Kell 1975, J. Chem. Eng. Data 20, 97, table 1 equation. */
export function waterDensityKgPerL(temperatureC: number): number {
  const t = temperatureC;
  const numerator = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return numerator / (1 + 16.87985e-3 * t) / 1000;
}

/** Viscosity, mPa s. IAPWS 2008 at 0.1 MPa: Patek et al. 2009, J. Phys. Chem. Ref. Data 38, 21, eq. 5. */
export function waterViscosityMPaS(temperatureC: number): number {
  const t = (temperatureC + ZERO_CELSIUS_K) / 300;
  return (280.68 * t ** -1.9 + 511.45 * t ** -7.7 + 61.131 * t ** -19.6 + 0.45903 * t ** -40) / 1000;
}

/** Relative permittivity at 1 atm (1.01325 bar). Bradley & Pitzer 1979, J. Phys. Chem. 83, 1599, table II. */
export function waterPermittivity(temperatureC: number): number {
  const T = temperatureC + ZERO_CELSIUS_K;
  const d1000 = 342.79 * Math.exp(-5.0866e-3 * T + 9.469e-7 * T * T);
  const c = -2.0525 + 3115.9 / (T - 182.89);
  const b = -8032.5 + 4.2142e6 / T + 2.1417 * T;
  return d1000 + c * Math.log((b + 1.01325) / (b + 1000));
}

// CODATA 2018: e^2/(4 pi eps0 k) in m K; Avogadro's number; elementary charge in C; Faraday constant; gas constant.
const E2_OVER_4PI_EPS0_K_M_K = 1.671009e-5;
const AVOGADRO_PER_MOL = 6.02214076e23;
const ELEMENTARY_CHARGE_C = 1.602176634e-19;

/** Bjerrum length, m: e^2 / (4 pi eps0 eps k T). */
function bjerrumLengthM(temperatureC: number): number {
  return E2_OVER_4PI_EPS0_K_M_K / (waterPermittivity(temperatureC) * (temperatureC + ZERO_CELSIUS_K));
}

/** Debye-Hueckel B, per angstrom and (mol/kg)^0.5: inverse Debye length at unit ionic strength. 0.3285 at 25 C. */
export function debyeBPerAngstrom(temperatureC: number): number {
  const perM = Math.sqrt(8 * Math.PI * AVOGADRO_PER_MOL * bjerrumLengthM(temperatureC) * waterDensityKgPerL(temperatureC) * 1000);
  return perM * 1e-10;
}

/** Debye-Hueckel A, (kg/mol)^0.5, decadic. 0.5100 at 25 C. */
export function debyeA(temperatureC: number): number {
  return (debyeBPerAngstrom(temperatureC) * 1e10 * bjerrumLengthM(temperatureC)) / (2 * Math.LN10);
}

/** Onsager's relaxation factor without its q: Bjerrum length times inverse Debye length over 3, (kg/mol)^0.5. */
export function onsagerRelaxation(temperatureC: number): number {
  return (bjerrumLengthM(temperatureC) * debyeBPerAngstrom(temperatureC) * 1e10) / 3;
}

/** Onsager's electrophoretic term e^2 N_A kappa / (6 pi eta), S cm2/eq (kg/mol)^0.5. 30.27 at 25 C. */
export function onsagerElectrophoresis(temperatureC: number): number {
  const kappaPerM = debyeBPerAngstrom(temperatureC) * 1e10;
  const siemensM2 = (ELEMENTARY_CHARGE_C ** 2 * AVOGADRO_PER_MOL * kappaPerM) / (6 * Math.PI * waterViscosityMPaS(temperatureC) * 1e-3);
  return siemensM2 * 1e4;
}
