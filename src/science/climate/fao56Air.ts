/**
 * Air in the terms of FAO-56: kPa and C. Source: Allen et al. 1998, FAO Irrigation and drainage paper 56, chapter 3.
 * Against the ASHRAE curve of moistAir.ts this saturation curve is 0.003 % low at 10 C, 0.045 % at 25 C, 0.11 % at 40 C.
 */

/** Air pressure at an elevation above sea level, kPa; eq. 7. */
export const airPressureKPa = (elevationM: number): number => 101.3 * ((293 - 0.0065 * elevationM) / 293) ** 5.26;

/** Psychrometric constant, kPa/K; eq. 8. */
export const psychrometricConstantKPaK = (pressureKPa: number): number => 0.665e-3 * pressureKPa;

/** Saturation vapour pressure over water, kPa, -10 to 60 C; eq. 11 (Tetens). */
export const saturationKPa = (airC: number): number => 0.6108 * Math.exp(17.27 * airC / (airC + 237.3));

/** Slope of the saturation curve, kPa/K; eq. 13. ASCE-EWRI 2005 rounds 4098 x 0.6108 to 2503, 0.002 % less. */
export const saturationSlopeKPaK = (airC: number): number => 4098 * saturationKPa(airC) / (airC + 237.3) ** 2;

/** Mean saturation pressure of a day, kPa: the mean at maximum and minimum, not the value at the mean; eq. 12. */
export const meanSaturationKPa = (maxC: number, minC: number): number => (saturationKPa(maxC) + saturationKPa(minC)) / 2;

/** Vapour pressure from the day's extremes of humidity, kPa; eq. 17. */
export const vapourFromHumiditiesKPa = (maxC: number, minC: number, rhMaxPct: number, rhMinPct: number): number =>
  (saturationKPa(minC) * rhMaxPct + saturationKPa(maxC) * rhMinPct) / 200;

/** Vapour pressure from the day's mean humidity, kPa; eq. 19. */
export const vapourFromMeanHumidityKPa = (maxC: number, minC: number, rhMeanPct: number): number =>
  rhMeanPct / 100 * meanSaturationKPa(maxC, minC);

/** Vapour pressure from an aspirated psychrometer, kPa; eq. 15 and 16 (0.000662 per K). */
export const vapourFromWetBulbKPa = (dryC: number, wetC: number, pressureKPa: number): number =>
  saturationKPa(wetC) - 0.000662 * pressureKPa * (dryC - wetC);

/** Wind at 2 m over short grass from wind at another height above ground (above 0.1 m); eq. 47. */
export const windAt2mMS = (windMS: number, heightM: number): number => windMS * 4.87 / Math.log(67.8 * heightM - 5.42);
