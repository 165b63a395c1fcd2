/**
 * Where the sun stands. Geometric and topocentric: no refraction, so that it can go into beam geometry;
 * `refractionDeg` gives what the eye and a sunrise need.
 *
 * Source: Meeus 1998, Astronomical Algorithms, ch. 12, 22, 25 (low-accuracy sun) with the largest nutation term.
 * Left out: planetary perturbations, small nutation terms, squares of the century; costs up to 0.01 degree, 1950 to 2100.
 */

const DEG = Math.PI / 180;
const DAY_MS = 86_400_000;
/** 2000-01-01T12:00Z, the epoch J2000.0. */
const J2000_MS = 946_728_000_000;
/** Terrestrial time minus universal time, s: 64 in 2000, 69 in 2024; one value costs under 0.0005 degree from 1985 to 2050. */
const DELTA_T_S = 69;

export interface SunPosition {
  /** Above the horizon, degrees, without refraction. */
  readonly elevationDeg: number;
  /** Clockwise from north, 0 to 360 degrees. */
  readonly azimuthDeg: number;
  readonly declinationDeg: number;
  /** Apparent solar time minus mean solar time, minutes. */
  readonly equationOfTimeMin: number;
  /** Distance in astronomical units. */
  readonly distanceAu: number;
}

interface Ecliptic { readonly longitude: number; readonly obliquity: number; readonly meanLongitude: number; readonly nutation: number; readonly distanceAu: number }

/** Angle in degrees brought into [0, 360). */
const wrap = (deg: number): number => deg - 360 * Math.floor(deg / 360);

/** Meeus ch. 25: T Julian centuries of terrestrial time since J2000; angles in degrees. */
function eclipticSun(T: number): Ecliptic {
  const L0 = 280.46646 + 36000.76983 * T;
  const M = (357.52911 + 35999.05029 * T) * DEG;
  const e = 0.016708634 - 0.000042037 * T;
  const C = (1.914602 - 0.004817 * T) * Math.sin(M) + 0.019993 * Math.sin(2 * M) + 0.000289 * Math.sin(3 * M);
  const node = (125.04 - 1934.136 * T) * DEG;
  const nutation = -0.00478 * Math.sin(node);
  return {
    // 0.00569: aberration.
    longitude: L0 + C - 0.00569 + nutation,
    obliquity: 23.439291 - 0.0130042 * T + 0.00256 * Math.cos(node),
    meanLongitude: L0, nutation,
    distanceAu: 1.000001018 * (1 - e * e) / (1 + e * Math.cos(M + C * DEG)),
  };
}

interface SunInSky { readonly declination: number; readonly greenwichHourAngle: number; readonly equationOfTimeMin: number; readonly distanceAu: number }

/** Declination and Greenwich hour angle in radians. Meeus eq. 25.6, 25.7, 12.4, 28.1. */
function sunInSky(utcMs: number): SunInSky {
  const days = (utcMs - J2000_MS) / DAY_MS;
  const sun = eclipticSun((days + DELTA_T_S / 86_400) / 36_525);
  const lambda = sun.longitude * DEG;
  const epsilon = sun.obliquity * DEG;
  const alpha = Math.atan2(Math.cos(epsilon) * Math.sin(lambda), Math.cos(lambda)) / DEG;
  const equinoxes = sun.nutation * Math.cos(epsilon);
  const siderealTime = 280.46061837 + 360.98564736629 * days + equinoxes;
  const equation = wrap(sun.meanLongitude - 0.0057183 - alpha + equinoxes + 180) - 180;
  return {
    declination: Math.asin(Math.sin(epsilon) * Math.sin(lambda)),
    greenwichHourAngle: (siderealTime - alpha) * DEG,
    equationOfTimeMin: 4 * equation, distanceAu: sun.distanceAu,
  };
}

/** Sine of the geometric elevation seen from the earth's centre. Meeus eq. 13.6. */
const sineOfElevation = (phi: number, delta: number, H: number): number =>
  Math.sin(phi) * Math.sin(delta) + Math.cos(phi) * Math.cos(delta) * Math.cos(H);

/** Solar parallax in degrees at the horizon. Meeus ch. 40. */
const PARALLAX_DEG = 8.794 / 3600;

/**
 * Position of the sun at an instant.
 * @param utcMs milliseconds since 1970-01-01T00:00Z, 1950 to 2100
 * @param latitudeDeg -90 to 90, north positive
 * @param longitudeDeg -180 to 180, east positive
 * Error against the NREL algorithm (Reda & Andreas 2004): under 0.01 degree.
 */
export function sunPosition(utcMs: number, latitudeDeg: number, longitudeDeg: number): SunPosition {
  const sky = sunInSky(utcMs);
  const phi = latitudeDeg * DEG;
  const H = sky.greenwichHourAngle + longitudeDeg * DEG;
  const geocentric = Math.asin(sineOfElevation(phi, sky.declination, H)) / DEG;
  // Meeus eq. 13.5, turned to count from north.
  const azimuth = Math.atan2(Math.sin(H), Math.cos(H) * Math.sin(phi) - Math.tan(sky.declination) * Math.cos(phi)) / DEG;
  return {
    elevationDeg: geocentric - PARALLAX_DEG * Math.cos(geocentric * DEG),
    azimuthDeg: wrap(azimuth + 180), declinationDeg: sky.declination / DEG,
    equationOfTimeMin: sky.equationOfTimeMin, distanceAu: sky.distanceAu,
  };
}

/** Cosine of the sun's zenith angle (sine of its elevation); negative below the horizon. */
export function cosineOfZenith(utcMs: number, latitudeDeg: number, longitudeDeg: number): number {
  const sky = sunInSky(utcMs);
  return sineOfElevation(latitudeDeg * DEG, sky.declination, sky.greenwichHourAngle + longitudeDeg * DEG);
}

/**
 * Lift of the sun by the atmosphere, degrees, for a geometric elevation in degrees. 0 once the upper limb has set.
 * Source: Reda & Andreas 2004, eq. 42 (air pressure in millibar, temperature in C).
 */
export function refractionDeg(elevationDeg: number, pressureMbar = 1010, airC = 10): number {
  if (elevationDeg < -(0.26667 + 0.5667)) return 0;
  const arcMinutes = 1.02 / Math.tan((elevationDeg + 10.3 / (elevationDeg + 5.11)) * DEG);
  return (pressureMbar / 1010) * (283 / (273 + airC)) * arcMinutes / 60;
}

/** Sunrise and sunset of one solar day. Both absent in polar day or night, which `alwaysUp` tells apart. */
export interface SunTimes {
  readonly noonUtcMs: number;
  readonly riseUtcMs?: number;
  readonly setUtcMs?: number;
  readonly alwaysUp: boolean;
}

/** Sun's upper limb on a level horizon: half-diameter 0.26667 and refraction 0.5667 degree (Reda & Andreas 2004, A.2). */
const HORIZON_DEG = -0.83337;

/** Half the day's arc as a share of a day, at the declination of the given instant; undefined when it does not cross. */
function halfDay(utcMs: number, phi: number): { share: number } | { alwaysUp: boolean } {
  const delta = sunInSky(utcMs).declination;
  const cosine = (Math.sin(HORIZON_DEG * DEG) - Math.sin(phi) * Math.sin(delta)) / (Math.cos(phi) * Math.cos(delta));
  if (cosine <= -1) return { alwaysUp: true };
  return cosine >= 1 ? { alwaysUp: false } : { share: Math.acos(cosine) / (2 * Math.PI) };
}

/** Solar noon nearest to an instant. */
function noonNear(utcMs: number, longitudeDeg: number): number {
  const meanDay = Math.round(utcMs / DAY_MS - 0.5 + longitudeDeg / 360);
  const guess = (meanDay + 0.5 - longitudeDeg / 360) * DAY_MS;
  const corrected = guess - sunInSky(guess).equationOfTimeMin * 60_000;
  return guess - sunInSky(corrected).equationOfTimeMin * 60_000;
}

/** Instant of rise (side -1) or set (side 1): the hour angle that the horizon asks for, with the declination of that instant. */
function crossing(noonUtcMs: number, phi: number, side: -1 | 1): number | undefined {
  let instant = noonUtcMs;
  for (let step = 0; step < 4; step += 1) {
    const half = halfDay(instant, phi);
    if (!('share' in half)) return undefined;
    const drift = (sunInSky(instant).equationOfTimeMin - sunInSky(noonUtcMs).equationOfTimeMin) * 60_000;
    instant = noonUtcMs + side * half.share * DAY_MS - drift;
  }
  return instant;
}

/**
 * Solar noon nearest to an instant, with the sunrise before and the sunset after it.
 * At these instants the NREL algorithm sees the sun within 0.01 degree of the horizon.
 */
export function sunTimes(utcMs: number, latitudeDeg: number, longitudeDeg: number): SunTimes {
  const noonUtcMs = noonNear(utcMs, longitudeDeg);
  const phi = latitudeDeg * DEG;
  const riseUtcMs = crossing(noonUtcMs, phi, -1);
  const setUtcMs = crossing(noonUtcMs, phi, 1);
  const atNoon = halfDay(noonUtcMs, phi);
  return { noonUtcMs, riseUtcMs, setUtcMs, alwaysUp: 'alwaysUp' in atNoon && atNoon.alwaysUp };
}

/** Hours between sunrise and sunset; 24 or 0 where the sun does not cross the horizon. */
export function dayLengthH(times: SunTimes): number {
  if (times.riseUtcMs === undefined || times.setUtcMs === undefined) return times.alwaysUp ? 24 : 0;
  return (times.setUtcMs - times.riseUtcMs) / 3_600_000;
}
