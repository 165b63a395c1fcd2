/** How much of global radiation is diffuse. Zenith angles here are geometric: never put a refracted one in. */

const DEG = Math.PI / 180;
/** W/m2; the constant that the published check of the Erbs split uses. */
const SOLAR_CONSTANT_WM2 = 1366.1;
/** Lowest cosine of zenith used in the clearness index, so that it stays finite near sunrise. */
const LEAST_COSINE = 0.065;
/** No beam is reckoned when the sun stands lower than 3 degrees. */
const LOWEST_BEAM_COSINE = Math.cos(87 * DEG);

/** Radiation on a plane facing the sun above the atmosphere, W/m2, by day of year. Spencer 1971, Fourier series. */
export function extraterrestrialNormalWM2(dayOfYear: number): number {
  const B = 2 * Math.PI * (dayOfYear - 1) / 365;
  return SOLAR_CONSTANT_WM2 * (1.00011 + 0.034221 * Math.cos(B) + 0.00128 * Math.sin(B) + 0.000719 * Math.cos(2 * B) + 7.7e-5 * Math.sin(2 * B));
}

/** Share of extraterrestrial radiation that reaches the ground, 0 to 1, with the cosine of zenith floored at 0.065. */
export function clearnessIndex(globalWM2: number, cosZenith: number, dayOfYear: number): number {
  const above = extraterrestrialNormalWM2(dayOfYear) * Math.max(LEAST_COSINE, cosZenith);
  return Math.max(0, Math.min(1, globalWM2 / above));
}

/** Diffuse share of hourly global radiation from the clearness index, 0 to 1. Erbs, Klein & Duffie 1982, eq. 1. */
export function erbsDiffuseShare(kt: number): number {
  if (kt <= 0.22) return 1 - 0.09 * kt;
  if (kt > 0.8) return 0.165;
  return 0.9511 - 0.1604 * kt + 4.388 * kt ** 2 - 16.638 * kt ** 3 + 12.336 * kt ** 4;
}

/** Direct normal and diffuse horizontal radiation, W/m2. */
export interface RadiationSplit {
  readonly directNormalWM2: number;
  readonly diffuseWM2: number;
}

/** Splits hourly global radiation (W/m2, horizontal). Erbs et al. 1982; beam 0 above zenith 87 degrees. */
export function splitGlobal(globalWM2: number, cosZenith: number, dayOfYear: number): RadiationSplit {
  const diffuseWM2 = globalWM2 * erbsDiffuseShare(clearnessIndex(globalWM2, cosZenith, dayOfYear));
  if (cosZenith < LOWEST_BEAM_COSINE) return { directNormalWM2: 0, diffuseWM2: globalWM2 };
  return { directNormalWM2: (globalWM2 - diffuseWM2) / cosZenith, diffuseWM2 };
}

/**
 * Diffuse share of photosynthetic light from the daily diffuse share of global radiation.
 * Spitters, Toussaint & Goudriaan 1986, eq. 9 and 10.
 * @param diffuseShare daily diffuse over global radiation, 0 to 1
 * @param zenithDeg mean zenith angle of the sun while up
 */
export function diffuseShareOfPar(diffuseShare: number, zenithDeg: number): number {
  const beam = 1 - diffuseShare * diffuseShare;
  const bright = Math.cos(zenithDeg * DEG) ** 2 * Math.sin(zenithDeg * DEG) ** 3;
  return (1 + 0.3 * beam) * diffuseShare / (1 + beam * bright);
}
