/**
 * Climate inside a bay from the weather outside, hour by hour. Heat has no memory from one hour to the next; humidity and
 * carbon dioxide remember the bay's own air.
 * How good it is: heat misses a published dynamic model by 3.2 kWh/m2 rms a month, bias -1.3 (bayHeat.ts); humidity and
 * carbon dioxide have been checked against no measured house. Measured climate replaces it where there
 * is any: `overlayMeasured`.
 */
import { leakageM3M2S } from './airExchange.ts';
import type { BayHour, OutdoorAir } from './bayHeat.ts';
import { isScreenClosed, solveAir } from './bayHeat.ts';
import { solveCarbonDioxide } from './bayCarbonDioxide.ts';
import type { CanopyLight, KeptAir } from './bayHumidity.ts';
import { keptFlowM3M2S, solveHumidity } from './bayHumidity.ts';
import { hourStartUtcMs, localHourOfDay } from './hourGrid.ts';
import { lampPowerWM2, lampShareByRule, lightIntegralMol, ppfdOfGlobal } from './lightInside.ts';
import { relativeHumidityPct, vapourPressurePa } from './moistAir.ts';
import type { BayDesign, CompleteWeather, HourGrid, InsideClimate } from './types.ts';

/** One hour outdoors. */
function outdoorAt(weather: CompleteWeather, hour: number): OutdoorAir {
  const airC = weather.airC[hour] as number;
  return {
    airC, vapourPa: vapourPressurePa(airC, weather.rhPct[hour] as number), globalWM2: weather.globalWM2[hour] as number,
    windMS: weather.windMS[hour] as number, co2Ppm: weather.co2Ppm[hour] as number,
  };
}

/** Sunlight above the crop, umol/(m2 s): cover, structure and, where it is closed, the screen. */
export function sunPpfdInside(bay: BayDesign, globalWM2: number, screenClosed: boolean): number {
  const screen = screenClosed && bay.screen !== undefined ? bay.screen.parTransmissivity : 1;
  return ppfdOfGlobal(globalWM2) * bay.coverTransmissivity * bay.structureTransmissivity * screen;
}

interface HourResult extends KeptAir { readonly heatWM2: number; readonly doseGM2H: number }

/** Air, humidity and carbon dioxide of one hour. Air let in for humidity cools, so temperature is solved again with it. */
function solveHour(bay: BayDesign, outdoor: OutdoorAir, hour: BayHour, light: CanopyLight, kept: KeptAir | undefined): HourResult {
  const dry = solveAir(bay, outdoor, hour);
  const humidity = solveHumidity(bay, hour, dry, outdoor, light, kept);
  const air = humidity.extraFlowM3M2S > 0 ? solveAir(bay, outdoor, hour, humidity.extraFlowM3M2S) : dry;
  const lit = light.sunPpfd + light.lampPpfd;
  const shut = air.ventM3M2S === 0;
  const carbon = solveCarbonDioxide({
    outdoorPpm: outdoor.co2Ppm, flowM3M2S: leakageM3M2S(bay, outdoor.windMS) + air.ventM3M2S, ppfdUmolM2S: lit, groundCover: bay.groundCover,
    setPpm: lit > 0 && shut ? bay.co2SetPpm : undefined, mostDoseGM2H: bay.co2DoseGM2H,
    kept: kept === undefined ? undefined : { co2Ppm: kept.co2Ppm, flowM3M2S: keptFlowM3M2S(bay) },
  });
  return { airC: air.airC, vapourPa: humidity.vapourPa, co2Ppm: carbon.co2Ppm, heatWM2: air.heatWM2, doseGM2H: carbon.doseGM2H };
}

function emptyClimate(grid: HourGrid): InsideClimate {
  const array = (): Float64Array => new Float64Array(grid.hours);
  return {
    ...grid, airC: array(), rhPct: array(), co2Ppm: array(), ppfdUmolM2S: array(), lampPpfdUmolM2S: array(), heatWhM2: array(), lampWhM2: array(),
    co2DoseGM2: array(), measured: new Uint8Array(grid.hours),
  };
}

/** Share of each hour that lamps are on; by the bay's rule unless a plan says otherwise. */
export type LampPlan = Float64Array;

/**
 * Climate inside a bay for some hours of a weather series.
 * @param fromHour first hour of `weather` to simulate; with `hours` it must lie within the series
 * @param lampPlan share of each simulated hour that lamps are on (lampPlanning.ts); without it the bay's lamp rule holds
 * Valid for a bay that `checkBay` finds nothing against. No cooling, no storage of heat: summer peaks and sudden changes of
 * set-point come out sharper than in a real house.
 */
export function simulateClimateInside(weather: CompleteWeather, bay: BayDesign, fromHour: number, hours: number, lampPlan?: LampPlan): InsideClimate {
  if (!(fromHour >= 0 && hours >= 0 && fromHour + hours <= weather.hours)) throw new RangeError(`hours ${fromHour} to ${fromHour + hours} are not within 0 to ${weather.hours}`);
  const grid: HourGrid = { startUtcMs: hourStartUtcMs(weather, fromHour), utcOffsetH: weather.utcOffsetH, hours };
  const inside = emptyClimate(grid);
  let soFarMol = 0;
  let result: HourResult | undefined;
  for (let hour = 0; hour < hours; hour += 1) {
    const outdoor = outdoorAt(weather, fromHour + hour);
    const screenClosed = isScreenClosed(bay, outdoor);
    const sunPpfd = sunPpfdInside(bay, outdoor.globalWM2, screenClosed);
    const hourOfDay = localHourOfDay(grid, hour);
    if (hourOfDay < 1) soFarMol = 0;
    const lampShare = bay.lamps === undefined ? 0
      : lampPlan?.[hour] ?? lampShareByRule(bay.lamps, hourOfDay, outdoor.globalWM2, soFarMol, lightIntegralMol(sunPpfd, 1));
    const lampPpfd = lampShare * (bay.lamps?.ppfdUmolM2S ?? 0);
    const lampWM2 = bay.lamps === undefined ? 0 : lampShare * lampPowerWM2(bay.lamps);
    soFarMol += lightIntegralMol(sunPpfd + lampPpfd, 1);
    result = solveHour(bay, outdoor, { day: outdoor.globalWM2 > 0 || lampShare > 0, screenClosed, lampWM2 }, { sunPpfd, lampPpfd }, result);
    inside.airC[hour] = result.airC;
    inside.rhPct[hour] = Math.min(100, relativeHumidityPct(result.airC, result.vapourPa));
    inside.co2Ppm[hour] = result.co2Ppm;
    inside.ppfdUmolM2S[hour] = sunPpfd + lampPpfd;
    inside.lampPpfdUmolM2S[hour] = lampPpfd;
    inside.heatWhM2[hour] = result.heatWM2;
    inside.lampWhM2[hour] = lampWM2;
    inside.co2DoseGM2[hour] = result.doseGM2H;
  }
  return inside;
}
