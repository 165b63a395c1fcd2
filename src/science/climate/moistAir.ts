/**
 * Moist air after ASHRAE Fundamentals 2017, chapter 1. Pressures in Pa, humidity ratios in kg water per kg dry air.
 * Left out: the enhancement factor of air over water, which costs 0.4 to 0.6 % of the humidity ratio at -20 to 50 C.
 */

/** Ratio of the molar masses of water and dry air; ASHRAE eq. 1.20. */
const MASS_RATIO = 0.621945;
/** Gas constant of dry air, J/(kg K); ASHRAE eq. 1.1. */
const R_DRY_AIR = 287.042;
const KELVIN = 273.15;

/**
 * Saturation vapour pressure over ice below 0.01 C and over water above, Pa. Valid -100 to 200 C.
 * ASHRAE 2017 ch. 1 eq. 5 and 6 (Hyland & Wexler 1983).
 */
export function saturationPressurePa(airC: number): number {
  const T = airC + KELVIN;
  if (airC <= 0.01) {
    return Math.exp(-5.6745359e3 / T + 6.3925247 - 9.677843e-3 * T + 6.2215701e-7 * T ** 2
      + 2.0747825e-9 * T ** 3 - 9.484024e-13 * T ** 4 + 4.1635019 * Math.log(T));
  }
  return Math.exp(-5.8002206e3 / T + 1.3914993 - 4.8640239e-2 * T + 4.1764768e-5 * T ** 2
    - 1.4452093e-8 * T ** 3 + 6.5459673 * Math.log(T));
}

/** Partial pressure of water vapour from relative humidity in percent (0 to 100). */
export const vapourPressurePa = (airC: number, rhPct: number): number => saturationPressurePa(airC) * rhPct / 100;

/** Vapour pressure deficit of the air itself (not of a leaf), Pa. */
export const airDeficitPa = (airC: number, rhPct: number): number => saturationPressurePa(airC) * (1 - rhPct / 100);

/** Vapour pressure deficit between a leaf, saturated at its own temperature, and the air, Pa; negative where dew forms. */
export const leafDeficitPa = (leafC: number, airC: number, rhPct: number): number =>
  saturationPressurePa(leafC) - vapourPressurePa(airC, rhPct);

/** Relative humidity in percent; above 100 where the pressure exceeds saturation. */
export const relativeHumidityPct = (airC: number, vapourPa: number): number => 100 * vapourPa / saturationPressurePa(airC);

/**
 * Temperature at which air of this vapour pressure saturates, C, over ice below 0.01 C.
 * Newton's rule on the saturation curve, to 1e-9 C. Vapour pressure 0.002 to 1,500,000 Pa (-100 to 200 C).
 */
export function dewPointC(vapourPa: number): number {
  const target = Math.log(vapourPa);
  // First guess: the Magnus form inverted.
  const a = Math.log(vapourPa / 610.8);
  let dew = 237.3 * a / (17.27 - a);
  for (let step = 0; step < 20; step += 1) {
    const slope = (Math.log(saturationPressurePa(dew + 0.005)) - Math.log(saturationPressurePa(dew - 0.005))) / 0.01;
    const change = (target - Math.log(saturationPressurePa(dew))) / slope;
    dew += change;
    if (Math.abs(change) < 1e-9) break;
  }
  return dew;
}

/** kg water per kg dry air; ASHRAE eq. 1.20. */
export const humidityRatio = (vapourPa: number, pressurePa: number): number => MASS_RATIO * vapourPa / (pressurePa - vapourPa);

/** Inverse of `humidityRatio`. */
export const vapourPressureFromRatioPa = (ratio: number, pressurePa: number): number => pressurePa * ratio / (MASS_RATIO + ratio);

/** Enthalpy in J per kg dry air, 0 for dry air at 0 C; ASHRAE eq. 1.30. */
export const enthalpyJKg = (airC: number, ratio: number): number => (1.006 * airC + ratio * (2501 + 1.86 * airC)) * 1000;

/** Volume in m3 per kg dry air; ASHRAE eq. 1.26. */
export const specificVolumeM3Kg = (airC: number, ratio: number, pressurePa: number): number =>
  R_DRY_AIR * (airC + KELVIN) * (1 + 1.607858 * ratio) / pressurePa;

/** kg of moist air per m3; ASHRAE eq. 1.9. */
export const densityKgM3 = (airC: number, ratio: number, pressurePa: number): number =>
  (1 + ratio) / specificVolumeM3Kg(airC, ratio, pressurePa);

/** kg of water vapour per m3 of air (ideal gas, 461.5 J/(kg K)). */
export const vapourDensityKgM3 = (airC: number, vapourPa: number): number => vapourPa / (461.5 * (airC + KELVIN));

/**
 * Humidity ratio from a thermodynamic wet bulb at or below the dry bulb; ASHRAE eq. 1.33 above 0 C, 1.35 below.
 */
export function humidityRatioFromWetBulb(dryC: number, wetC: number, pressurePa: number): number {
  const Ws = humidityRatio(saturationPressurePa(wetC), pressurePa);
  return wetC >= 0
    ? ((2501 - 2.326 * wetC) * Ws - 1.006 * (dryC - wetC)) / (2501 + 1.86 * dryC - 4.186 * wetC)
    : ((2830 - 0.24 * wetC) * Ws - 1.006 * (dryC - wetC)) / (2830 + 1.86 * dryC - 2.1 * wetC);
}

/** Pressure of the standard atmosphere, Pa, for -5,000 to 11,000 m; ASHRAE eq. 1.3. */
export const standardPressurePa = (elevationM: number): number => 101_325 * (1 - 2.25577e-5 * elevationM) ** 5.2559;

/**
 * Sensible heat in J to warm the outdoor air that carries out 1 kg of water when humid air is exchanged for it.
 * Infinite where the outdoor air is not drier. 1006 J/(kg K) is dry air's heat capacity (ASHRAE eq. 1.28).
 */
export function ventHeatJPerKgWater(insideC: number, insideRatio: number, outsideC: number, outsideRatio: number): number {
  const dried = insideRatio - outsideRatio;
  return dried <= 0 ? Infinity : 1006 * (insideC - outsideC) / dried;
}
