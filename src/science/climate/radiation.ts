/**
 * Radiation in the terms of FAO-56 and ASCE: MJ per m2 and day or hour, day of year 1 to 366, latitude north positive.
 * Sources: Allen et al. 1998, FAO-56, chapter 3; ASCE-EWRI 2005, appendix D for the full clear-sky form.
 * The sun's declination and equation of time in here err by up to 1.4 degrees of elevation: for beam geometry use sun.ts.
 */

const DEG = Math.PI / 180;
/** MJ per m2 and minute; FAO-56 eq. 21. */
const SOLAR_CONSTANT = 0.0820;

/** Inverse relative distance earth to sun; eq. 23. */
export const inverseDistance = (dayOfYear: number): number => 1 + 0.033 * Math.cos(2 * Math.PI * dayOfYear / 365);

/** Declination of the sun, rad; eq. 24. */
export const declinationRad = (dayOfYear: number): number => 0.409 * Math.sin(2 * Math.PI * dayOfYear / 365 - 1.39);

/** Hour angle of sunset, rad: 0 in polar night, pi in polar day; eq. 25. */
export function sunsetHourAngleRad(latitudeDeg: number, dayOfYear: number): number {
  const cosine = -Math.tan(latitudeDeg * DEG) * Math.tan(declinationRad(dayOfYear));
  return Math.acos(Math.max(-1, Math.min(1, cosine)));
}

/** Daylight hours, geometric, without refraction; eq. 34. */
export const daylightH = (latitudeDeg: number, dayOfYear: number): number => 24 / Math.PI * sunsetHourAngleRad(latitudeDeg, dayOfYear);

/** Radiation on a horizontal plane above the atmosphere between two hour angles, MJ/m2; eq. 28. */
function extraterrestrialBetween(latitudeDeg: number, dayOfYear: number, from: number, to: number): number {
  const phi = latitudeDeg * DEG;
  const delta = declinationRad(dayOfYear);
  const path = (to - from) * Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * (Math.sin(to) - Math.sin(from));
  return 12 * 60 / Math.PI * SOLAR_CONSTANT * inverseDistance(dayOfYear) * path;
}

/** Extraterrestrial radiation of a day, MJ/m2; eq. 21. */
export function extraterrestrialDailyMJ(latitudeDeg: number, dayOfYear: number): number {
  const ws = sunsetHourAngleRad(latitudeDeg, dayOfYear);
  return extraterrestrialBetween(latitudeDeg, dayOfYear, -ws, ws);
}

/** Seasonal correction of solar time, hours; eq. 32 and 33. */
export function seasonalCorrectionH(dayOfYear: number): number {
  const b = 2 * Math.PI * (dayOfYear - 81) / 364;
  return 0.1645 * Math.sin(2 * b) - 0.1255 * Math.cos(b) - 0.025 * Math.sin(b);
}

/**
 * Solar hour angle, rad, -pi to pi, at a clock time; eq. 31.
 * @param clockH local standard time, hours
 * @param longitudeDeg east positive (FAO-56 counts west)
 * @param utcOffsetH local standard time minus UTC
 */
export function solarHourAngleRad(dayOfYear: number, clockH: number, longitudeDeg: number, utcOffsetH: number): number {
  const solarH = clockH + (longitudeDeg - 15 * utcOffsetH) / 15 + seasonalCorrectionH(dayOfYear);
  const turns = (solarH - 12) / 24;
  return 2 * Math.PI * (turns - Math.round(turns));
}

/** Extraterrestrial radiation of the hour centred on a solar hour angle, MJ/m2, cut off at sunrise and sunset; eq. 28 to 30. */
export function extraterrestrialHourlyMJ(latitudeDeg: number, dayOfYear: number, hourAngleRad: number): number {
  const ws = sunsetHourAngleRad(latitudeDeg, dayOfYear);
  const within = (angle: number): number => Math.max(-ws, Math.min(ws, angle));
  const from = within(hourAngleRad - Math.PI / 24);
  const to = within(hourAngleRad + Math.PI / 24);
  return Math.max(0, extraterrestrialBetween(latitudeDeg, dayOfYear, from, to));
}

/** Sine of the sun's elevation at a solar hour angle; ASCE-EWRI 2005 eq. D.6. */
export function sineOfElevationAt(latitudeDeg: number, dayOfYear: number, hourAngleRad: number): number {
  const phi = latitudeDeg * DEG;
  const delta = declinationRad(dayOfYear);
  return Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.cos(hourAngleRad);
}

/** Sine of the elevation weighted over a day; ASCE-EWRI 2005 eq. D.5. */
export function dailySineOfElevation(latitudeDeg: number, dayOfYear: number): number {
  const phi = latitudeDeg * DEG;
  return Math.max(0, Math.sin(0.85 + 0.3 * phi * Math.sin(2 * Math.PI * dayOfYear / 365 - 1.39) - 0.42 * phi * phi));
}

/** Solar radiation from hours of sunshine (Angstrom); eq. 35 with its default coefficients. */
export const solarFromSunshineMJ = (sunshineH: number, dayH: number, extraterrestrialMJ: number, a = 0.25, b = 0.5): number =>
  (a + b * sunshineH / dayH) * extraterrestrialMJ;

/** Solar radiation from the day's temperature range; eq. 50: coefficient 0.16 inland, 0.19 at a coast. */
export const solarFromTemperaturesMJ = (maxC: number, minC: number, extraterrestrialMJ: number, perRootK: 0.16 | 0.19): number =>
  perRootK * Math.sqrt(maxC - minC) * extraterrestrialMJ;

/** Clear-sky radiation, simple form; eq. 37. */
export const clearSkySimpleMJ = (elevationM: number, extraterrestrialMJ: number): number => (0.75 + 2e-5 * elevationM) * extraterrestrialMJ;

/**
 * Clear-sky radiation with beam and diffuse transmission; ASCE-EWRI 2005 eq. D.1 to D.3, clean air (turbidity 1).
 * 0 with the sun below the horizon.
 */
export function clearSkyFullMJ(pressureKPa: number, vapourKPa: number, sineOfElevation: number, extraterrestrialMJ: number): number {
  if (sineOfElevation <= 0) return 0;
  const waterMm = 0.14 * vapourKPa * pressureKPa + 2.1;
  const beam = 0.98 * Math.exp(-0.00146 * pressureKPa / sineOfElevation - 0.075 * (waterMm / sineOfElevation) ** 0.4);
  const diffuse = beam >= 0.15 ? 0.35 - 0.36 * beam : 0.18 + 0.82 * beam;
  return (beam + diffuse) * extraterrestrialMJ;
}

/** Net short-wave radiation of grass (albedo 0.23); eq. 38. */
export const netShortwaveMJ = (solarMJ: number): number => 0.77 * solarMJ;

/** Cloud and humidity factors of eq. 39; the ratio of solar to clear-sky radiation is taken between 0.3 and 1 (ASCE eq. 18). */
function longwaveFactor(vapourKPa: number, clearness: number): number {
  const ratio = Math.max(0.3, Math.min(1, clearness));
  return (0.34 - 0.14 * Math.sqrt(vapourKPa)) * (1.35 * ratio - 0.35);
}

/** Net outgoing long-wave radiation of a day, MJ/m2; eq. 39. `clearness` is solar over clear-sky radiation. */
export const netLongwaveDailyMJ = (maxC: number, minC: number, vapourKPa: number, clearness: number): number =>
  4.903e-9 * ((maxC + 273.16) ** 4 + (minC + 273.16) ** 4) / 2 * longwaveFactor(vapourKPa, clearness);

/** Net outgoing long-wave radiation of an hour, MJ/m2; eq. 39 with the hourly constant. At night pass the clearness before sunset. */
export const netLongwaveHourlyMJ = (airC: number, vapourKPa: number, clearness: number): number =>
  2.043e-10 * (airC + 273.16) ** 4 * longwaveFactor(vapourKPa, clearness);

/** Soil heat flux of a month from the months beside it, MJ per m2 and day; eq. 43. */
export const soilHeatFromNeighboursMJ = (previousC: number, nextC: number): number => 0.07 * (nextC - previousC);

/** Soil heat flux of a month when the next is unknown, MJ per m2 and day; eq. 44. */
export const soilHeatFromPreviousMJ = (previousC: number, thisC: number): number => 0.14 * (thisC - previousC);
