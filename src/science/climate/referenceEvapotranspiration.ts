/**
 * Reference evapotranspiration of open land: grass (FAO-56, ASCE short) and alfalfa (ASCE tall).
 * For outdoor benchmarks and open ponds only. Inside a greenhouse its wind profile does not hold: use transpiration.ts there.
 * Sources: Allen et al. 1998, FAO-56 eq. 6, 45, 46, 52, 53; ASCE-EWRI 2005 eq. 1 and table 1.
 */
import { airPressureKPa, meanSaturationKPa, psychrometricConstantKPaK, saturationKPa, saturationSlopeKPaK } from './fao56Air.ts';
import {
  clearSkyFullMJ, clearSkySimpleMJ, dailySineOfElevation, extraterrestrialDailyMJ, extraterrestrialHourlyMJ,
  netLongwaveDailyMJ, netLongwaveHourlyMJ, netShortwaveMJ, sineOfElevationAt,
} from './radiation.ts';

/** Which clear-sky formula feeds the long-wave term: both are legitimate and move a day by 0.06 to 0.10 mm. */
export type ClearSky = 'simple' | 'full';

/** Numerator and denominator constants and the share of net radiation that goes into the soil, by day and by night. */
interface Surface { readonly Cn: number; readonly dayCd: number; readonly nightCd: number; readonly daySoil: number; readonly nightSoil: number }

export const DAILY_SURFACES = { short: { Cn: 900, Cd: 0.34 }, tall: { Cn: 1600, Cd: 0.38 } } as const;

/** FAO-56 keeps 0.34 day and night; ASCE-EWRI 2005 table 1 does not. */
export const HOURLY_SURFACES = {
  fao: { Cn: 37, dayCd: 0.34, nightCd: 0.34, daySoil: 0.1, nightSoil: 0.5 },
  short: { Cn: 37, dayCd: 0.24, nightCd: 0.96, daySoil: 0.1, nightSoil: 0.5 },
  tall: { Cn: 66, dayCd: 0.25, nightCd: 1.7, daySoil: 0.04, nightSoil: 0.2 },
} as const satisfies Record<string, Surface>;

/** One day outdoors. Wind at 2 m, vapour pressure as a mean of the day. */
export interface OutdoorDay {
  readonly latitudeDeg: number;
  readonly elevationM: number;
  readonly dayOfYear: number;
  readonly maxC: number;
  readonly minC: number;
  readonly vapourKPa: number;
  readonly wind2mMS: number;
  readonly solarMJ: number;
  /** Into the soil, MJ/m2; 0 for a single day (FAO-56 eq. 42). */
  readonly soilHeatMJ?: number;
}

/** One hour outdoors, centred on a solar hour angle (radiation.ts). */
export interface OutdoorHour {
  readonly latitudeDeg: number;
  readonly elevationM: number;
  readonly dayOfYear: number;
  readonly hourAngleRad: number;
  readonly airC: number;
  readonly vapourKPa: number;
  readonly wind2mMS: number;
  readonly solarMJ: number;
  /** Solar over clear-sky radiation two to three hours before sunset, used while the sun is down; FAO-56 recommends 0.7 to 0.8. */
  readonly nightClearness?: number;
}

/** FAO-56 eq. 6 (days) and 53 (hours): `Cn` and `Cd` make the difference. mm per day or hour. */
function penmanMonteith(at: { slope: number; gamma: number; netMJ: number; airC: number; wind: number; deficitKPa: number; Cn: number; Cd: number }): number {
  const aerodynamic = at.gamma * at.Cn / (at.airC + 273) * at.wind * at.deficitKPa;
  return (0.408 * at.slope * at.netMJ + aerodynamic) / (at.slope + at.gamma * (1 + at.Cd * at.wind));
}

/** Solar over clear-sky radiation of a day, by either clear-sky formula. */
function dailyClearness(day: OutdoorDay, clearSky: ClearSky): number {
  const Ra = extraterrestrialDailyMJ(day.latitudeDeg, day.dayOfYear);
  const Rso = clearSky === 'simple' ? clearSkySimpleMJ(day.elevationM, Ra)
    : clearSkyFullMJ(airPressureKPa(day.elevationM), day.vapourKPa, dailySineOfElevation(day.latitudeDeg, day.dayOfYear), Ra);
  return day.solarMJ / Rso;
}

/** Net radiation of grass over a day, MJ/m2; FAO-56 eq. 40. */
export const dailyNetRadiationMJ = (day: OutdoorDay, clearSky: ClearSky): number =>
  netShortwaveMJ(day.solarMJ) - netLongwaveDailyMJ(day.maxC, day.minC, day.vapourKPa, dailyClearness(day, clearSky));

/** Reference evapotranspiration of a day, mm. */
export function dailyReferenceEtMm(day: OutdoorDay, surface: keyof typeof DAILY_SURFACES = 'short', clearSky: ClearSky = 'simple'): number {
  const airC = (day.maxC + day.minC) / 2;
  return penmanMonteith({
    slope: saturationSlopeKPaK(airC), gamma: psychrometricConstantKPaK(airPressureKPa(day.elevationM)),
    netMJ: dailyNetRadiationMJ(day, clearSky) - (day.soilHeatMJ ?? 0), airC, wind: day.wind2mMS,
    deficitKPa: meanSaturationKPa(day.maxC, day.minC) - day.vapourKPa, ...DAILY_SURFACES[surface],
  });
}

/** Solar over clear-sky radiation of an hour; `nightClearness` while the sun is down or nearly so (elevation under 0.3 rad, ASCE p. 34). */
function hourlyClearness(hour: OutdoorHour, clearSky: ClearSky): number {
  const sine = sineOfElevationAt(hour.latitudeDeg, hour.dayOfYear, hour.hourAngleRad);
  if (sine < Math.sin(0.3)) return hour.nightClearness ?? 0.8;
  const Ra = extraterrestrialHourlyMJ(hour.latitudeDeg, hour.dayOfYear, hour.hourAngleRad);
  const Rso = clearSky === 'simple' ? clearSkySimpleMJ(hour.elevationM, Ra)
    : clearSkyFullMJ(airPressureKPa(hour.elevationM), hour.vapourKPa, sine, Ra);
  return hour.solarMJ / Rso;
}

/** Net radiation of grass over an hour, MJ/m2. */
export const hourlyNetRadiationMJ = (hour: OutdoorHour, clearSky: ClearSky): number =>
  netShortwaveMJ(hour.solarMJ) - netLongwaveHourlyMJ(hour.airC, hour.vapourKPa, hourlyClearness(hour, clearSky));

/** Reference evapotranspiration of an hour, mm; day and night are told apart by the sign of net radiation. */
export function hourlyReferenceEtMm(hour: OutdoorHour, surface: keyof typeof HOURLY_SURFACES = 'short', clearSky: ClearSky = 'simple'): number {
  const netMJ = hourlyNetRadiationMJ(hour, clearSky);
  const { Cn, dayCd, nightCd, daySoil, nightSoil } = HOURLY_SURFACES[surface];
  const byDay = netMJ > 0;
  return penmanMonteith({
    slope: saturationSlopeKPaK(hour.airC), gamma: psychrometricConstantKPaK(airPressureKPa(hour.elevationM)),
    netMJ: netMJ * (1 - (byDay ? daySoil : nightSoil)), airC: hour.airC, wind: hour.wind2mMS,
    deficitKPa: saturationKPa(hour.airC) - hour.vapourKPa, Cn, Cd: byDay ? dayCd : nightCd,
  });
}

/** Reference evapotranspiration of a day from temperatures alone, mm; FAO-56 eq. 52 (Hargreaves), 0.408 turns MJ into mm. */
export const hargreavesEtMm = (maxC: number, minC: number, extraterrestrialMJ: number): number =>
  0.0023 * ((maxC + minC) / 2 + 17.8) * Math.sqrt(maxC - minC) * 0.408 * extraterrestrialMJ;
