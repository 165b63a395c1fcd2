import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CaseMeter, climateCases, list, sharedFile } from '../../../test/climateCases.ts';
import { AIR_J_M3K, leakageM3M2S, roofVentM3M2S, vapourFlowKgM2S } from './airExchange.ts';
import { checkBay, checkLamps, GLASS_BAY } from './bayDesign.ts';
import type { BayHour, OutdoorAir } from './bayHeat.ts';
import { coverLossWM2K, freeHeatWM2, heatBalanceWM2, isScreenClosed, solveAir, ventShare } from './bayHeat.ts';
import { readEpw } from './readEpw.ts';
import type { BayDesign } from './types.ts';
import { valueAt } from './weatherSeries.ts';

const OUT: OutdoorAir = { airC: 2, vapourPa: 600, globalWM2: 200, windMS: 5, co2Ppm: 420 };
const DAY: BayHour = { day: true, screenClosed: false, lampWM2: 0 };
const SITES = [
  ['chicago', 'USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw'], ['port_angeles', 'USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw'], ['tucson', 'USA_AZ_Davis-Monthan.AFB.722745_TMY3.epw'],
] as const;

/** Heat of each hour of a typical year by the formula alone, with temperatures as stamped, Wh/m2. */
function heatOfYear(file: string, bay: BayDesign): number[] {
  const read = readEpw(readFileSync(sharedFile(`weather/${file}`) as string, 'utf8'), file);
  if (!read.ok) throw new Error(JSON.stringify(read.refusals));
  return Array.from({ length: 8760 }, (_, hour) => {
    const [airC, globalWM2, windMS] = (['airC', 'globalWM2', 'windMS'] as const).map((quantity) => valueAt(read.value, quantity, hour) as number) as [number, number, number];
    const outdoor: OutdoorAir = { ...OUT, airC, globalWM2, windMS };
    return Math.max(0, heatBalanceWM2(bay, outdoor, { day: globalWM2 > 0, screenClosed: isScreenClosed(bay, outdoor), lampWM2: 0 }));
  });
}
const kWh = (hours: readonly number[], fromDay: number, days: number): number => hours.slice(fromDay * 24, (fromDay + days) * 24).reduce((sum, one) => sum + one, 0) / 1000;

describe.skipIf(climateCases === undefined)('heat of a bay against published numbers', () => {
  const meter = new CaseMeter();

  it('U lines of Mihara & Hayashi 1979 and the two worked hours', () => {
    const winds = list(meter.case('u-mihara').in['w_m_s']);
    meter.compare('u-mihara', { glass: winds.map((wind) => coverLossWM2K(GLASS_BAY, false, wind)) });
    meter.compare('u-mihara', { glass_PVC_curtain: winds.map((wind) => coverLossWM2K(GLASS_BAY, true, wind)) }, 1e-9);
    const cold = heatBalanceWM2(GLASS_BAY, { ...OUT, airC: -10, globalWM2: 0 }, { day: false, screenClosed: true, lampWM2: 0 });
    meter.compare('static-hour', { H_W_m2_floor: [cold, heatBalanceWM2(GLASS_BAY, OUT, DAY)] });
  });

  it('twelve site-months of the dynamic model of Katzin et al. 2020/2021', () => {
    const reference = meter.case('gl-monthly-heat').expect as unknown as Record<string, Record<string, number>>;
    const published = meter.case('static-score').expect as unknown as { rmse_kWh_m2_month: number; bias: number; annual_kWh_m2: Record<string, number>; annual_no_screen: Record<string, number> };
    const errors: number[] = [];
    for (const [site, file] of SITES) {
      const hours = heatOfYear(file, GLASS_BAY);
      for (const [month, day] of [['jan', 0], ['apr', 90], ['jul', 181], ['oct', 273]] as const) errors.push(kWh(hours, day, 31) - (reference[site]?.[month] as number));
      expect(Math.round(kWh(hours, 0, 365))).toBe(published.annual_kWh_m2[site]);
      expect(Math.round(kWh(heatOfYear(file, { ...GLASS_BAY, screen: undefined }), 0, 365))).toBe(published.annual_no_screen[site]);
    }
    const rmse = Math.sqrt(errors.reduce((sum, one) => sum + one * one, 0) / 12);
    const bias = errors.reduce((sum, one) => sum + one, 0) / 12;
    console.log(`bay heat: against 12 site-months of a dynamic model, rms ${rmse.toFixed(2)}, bias ${bias.toFixed(2)}, worst ${Math.max(...errors.map(Math.abs)).toFixed(1)} kWh/m2 a month`);
    expect(rmse).toBeCloseTo(published.rmse_kWh_m2_month, 2);
    expect(bias).toBeCloseTo(published.bias, 2);
    meter.checked.set('static-score', 8);
    meter.checked.set('gl-monthly-heat', 12);
    meter.report('bay heat', 'Mihara & Hayashi 1979; dynamic model of Katzin et al. 2020/2021');
  });
});

describe('airExchange', () => {
  it('leaks 0.34 air changes an hour at 4 m/s and 4.2 m height, and never nothing (Vanthoor 2011, eq. 8.71)', () => {
    expect(leakageM3M2S(GLASS_BAY, 4) * 3600 / 4.2).toBeCloseTo(0.342857, 6);
    expect(leakageM3M2S(GLASS_BAY, 0)).toBeCloseTo(2.5e-5, 12);
  });
  it('vents by chimney and wind (Vanthoor 2011, eq. 8.65, by hand)', () => {
    // 0.117 x 0.75/2 x sqrt(9.81 x 0.68 x 5/(2 x 295.65) + 0.09 x 9) = 0.043875 x sqrt(0.0564079 + 0.81).
    expect(roofVentM3M2S(GLASS_BAY, 1, 25, 20, 3)).toBeCloseTo(0.043875 * Math.sqrt(0.0564079 + 0.81), 7);
    expect(roofVentM3M2S(GLASS_BAY, 0.5, 20, 25, 3)).toBeCloseTo(0.043875 / 2 * 0.9, 9);
  });
  it('carries vapour (Vanthoor 2011, eq. 8.45, by hand)', () => {
    expect(vapourFlowKgM2S(0.01, 2000, 20, 800, 5)).toBeCloseTo(18 / 8314 * 0.01 * (2000 / 293.15 - 800 / 278.15), 12);
    expect(AIR_J_M3K / 3600).toBeCloseTo(0.333, 3);
  });
});

describe('solveAir', () => {
  it('heats to the set-point of day and night', () => {
    expect(solveAir(GLASS_BAY, OUT, DAY)).toEqual({ airC: 19.5, heatWM2: heatBalanceWM2(GLASS_BAY, OUT, DAY), ventM3M2S: 0 });
    expect(solveAir(GLASS_BAY, { ...OUT, globalWM2: 0 }, { ...DAY, day: false }).airC).toBe(18.5);
  });
  it('counts sun and lamps in their useful shares, and air let in for humidity', () => {
    expect(freeHeatWM2(GLASS_BAY, OUT, { ...DAY, lampWM2: 100 })).toBeCloseTo(0.25 * 200 + 0.34 * 100, 9);
    expect(heatBalanceWM2(GLASS_BAY, OUT, DAY, 0.001) - heatBalanceWM2(GLASS_BAY, OUT, DAY)).toBeCloseTo(1200 * 0.001 * 17.5, 9);
  });
  it('floats where losses equal gains, with vents in their band', () => {
    const sunny = { ...OUT, airC: 15, globalWM2: 600 };
    const floating = solveAir(GLASS_BAY, sunny, DAY);
    const loss = (1.21 * 6.41 + 1200 * floating.ventM3M2S) * (floating.airC - 15);
    expect(floating.heatWM2).toBe(0);
    expect(loss).toBeCloseTo(150, 3);
    expect([24.5, 26.5, 30].map((airC) => ventShare(GLASS_BAY, 19.5, airC))).toEqual([0, 0.5, 1]);
    expect(floating.airC).toBeGreaterThan(24.5);
  });
  it('is warmer than a hot day outdoors, never cooler', () => {
    const hot = solveAir(GLASS_BAY, { ...OUT, airC: 38, globalWM2: 900 }, DAY);
    expect(hot.airC).toBeGreaterThan(38);
    expect(hot.airC).toBeLessThan(43);
  });
  it('closes the screen by its own limits of day and night', () => {
    expect([[4.9, 10], [5, 10], [9.9, 0], [10, 0]].map(([airC, globalWM2]) => isScreenClosed(GLASS_BAY, { airC: airC as number, globalWM2: globalWM2 as number }))).toEqual([true, false, true, false]);
    expect(isScreenClosed({ ...GLASS_BAY, screen: undefined }, { airC: -20, globalWM2: 0 })).toBe(false);
    expect(coverLossWM2K({ ...GLASS_BAY, screen: undefined }, true, 0)).toBe(4.41);
  });
});

describe('checkBay', () => {
  const lamps = { ppfdUmolM2S: 150, efficacyUmolJ: 2.5, onFromH: 2, onUntilH: 20, offAboveGlobalWM2: 300 };
  it('finds nothing against the glass bay', () => expect(checkBay({ ...GLASS_BAY, lamps })).toEqual([]));
  it('takes each number up to its limits and no further', () => {
    const limits: Record<string, readonly [number, number]> = {
      coverTransmissivity: [0, 1], structureTransmissivity: [0, 1], coverToFloor: [1, 4], airHeightM: [1.5, 15], leakagePerMS: [0, 0.005], ventAreaToFloor: [0, 1],
      heatDayC: [0, 35], heatNightC: [0, 35], ventAboveHeatK: [0, 20], rhMaxPct: [50, 100], co2SetPpm: [350, 2000], co2DoseGM2H: [0, 100], usefulSunShare: [0, 1],
      usefulLampShare: [0, 1], leafAreaIndex: [0, 10], groundCover: [0, 1],
    };
    const within = (make: (value: number) => BayDesign, least: number, most: number, name: string) => {
      for (const inside of [least, most]) expect(checkBay(make(inside)), `${name} ${inside}`).toEqual([]);
      for (const outside of [least - 0.001, most + 0.001]) expect(checkBay(make(outside))[0], `${name} ${outside}`).toMatchObject({ limit: [least, most] });
    };
    for (const [key, [least, most]] of Object.entries(limits)) within((value) => ({ ...GLASS_BAY, [key]: value }), least, most, key);
    for (const [key, [least, most]] of Object.entries({ calm: [0.3, 15], perMS: [0, 3] } as const)) within((value) => ({ ...GLASS_BAY, uWM2K: { ...GLASS_BAY.uWM2K, [key]: value } }), least, most, key);
    for (const [key, [least, most]] of Object.entries({ parTransmissivity: [0, 1], closesBelowDayC: [-50, 50], closesBelowNightC: [-50, 50] } as const)) within((value) => ({ ...GLASS_BAY, screen: { ...GLASS_BAY.screen!, [key]: value } }), least, most, key);
    for (const [key, [least, most]] of Object.entries({ ppfdUmolM2S: [1, 2000], efficacyUmolJ: [0.3, 5], onFromH: [0, 24], onUntilH: [0, 24], offAboveGlobalWM2: [0, 1500], targetDliMolM2: [0, 80] } as const)) within((value) => ({ ...GLASS_BAY, lamps: { ...lamps, [key]: value } }), least, most, key);
  });
  it('is the published house: light, losses, vents, set-points, screen', () => {
    // Vanthoor 2011 table 8.2; Mihara & Hayashi 1979; Katzin et al. 2021.
    expect(GLASS_BAY).toEqual({
      coverTransmissivity: 0.85, structureTransmissivity: 0.9, coverToFloor: 1.21, uWM2K: { calm: 4.41, perMS: 0.4 },
      screen: { uWM2K: { calm: 2.93, perMS: 0.1 }, parTransmissivity: 0.6, closesBelowDayC: 5, closesBelowNightC: 10 }, airHeightM: 4.2, leakagePerMS: 1e-4, ventAreaToFloor: 0.117,
      heatDayC: 19.5, heatNightC: 18.5, ventAboveHeatK: 5, rhMaxPct: 87, co2DoseGM2H: 5, usefulSunShare: 0.25, usefulLampShare: 0.34, leafAreaIndex: 1.5, groundCover: 0.7,
    });
  });
  it('lists every number outside its limits with its path', () => {
    const wrong = checkBay({ ...GLASS_BAY, coverTransmissivity: 85, uWM2K: { calm: NaN, perMS: 0.4 }, screen: { ...GLASS_BAY.screen!, uWM2K: { calm: 2.9, perMS: 9 } }, lamps: { ...lamps, efficacyUmolJ: 30 } }, 'bays.north');
    expect(wrong.map((one) => one.path)).toEqual(['bays.north.coverTransmissivity', 'bays.north.uWM2K.calm', 'bays.north.screen.uWM2K.perMS', 'bays.north.lamps.efficacyUmolJ']);
    expect(wrong[0]).toMatchObject({ code: 'value-out-of-range', limit: [0, 1] });
    expect(checkLamps({ ...lamps, onFromH: 25 }, 'l')[0]?.path).toBe('l.onFromH');
    expect(checkBay({ ...GLASS_BAY, screen: undefined })).toEqual([]);
  });
});
