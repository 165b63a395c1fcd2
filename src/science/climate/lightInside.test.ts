import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CaseMeter, climateCases, sharedFile } from '../../../test/climateCases.ts';
import { completeWeather } from './completeWeather.ts';
import {
  dailyLightIntegrals, dliOfRadiationSum, interceptedShare, isWithin, lampElectricityKWh, lampPowerWM2, lampShareByRule, lightIntegralMol,
  ppfdOfGlobal, SUN_PAIR, throughTwoLayers, VANTHOOR_PAIR,
} from './lightInside.ts';
import { readEpw } from './readEpw.ts';
import type { LampDesign } from './types.ts';

const LAMPS: LampDesign = { ppfdUmolM2S: 200, efficacyUmolJ: 2.5, onFromH: 2, onUntilH: 18, offAboveGlobalWM2: 400, targetDliMolM2: 10 };

describe.skipIf(climateCases === undefined)('light', () => {
  it('agrees with the worked numbers', () => {
    const meter = new CaseMeter();
    meter.compare('par-1', { PPFD: ppfdOfGlobal(500) });
    meter.compare('dli-1', { DLI: lightIntegralMol(200, 16) });
    meter.compare('dli-2', { DLI_out: dliOfRadiationSum(20), DLI_in: dliOfRadiationSum(20) * 0.85 * 0.9 });
    meter.compare('lamp-1', { kWh_m2_d: lampElectricityKWh(10, 3) });
    meter.report('light', 'definitions; constants McCree 1972, Vanthoor 2011 table 8.2');
  });

  it.each([
    ['USA_AZ_Davis-Monthan.AFB.722745_TMY3.epw', 61.7, 24.5], ['USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw', 46.6, 11.1],
    ['USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw', 45.4, 5.5],
  ])('outdoor light integral of June and December, %s', (name, june, december) => {
    const read = readEpw(readFileSync(sharedFile(`weather/${name}`) as string, 'utf8'), name);
    const weather = read.ok ? completeWeather(read.value) : read;
    if (!weather.ok) throw new Error(JSON.stringify(weather.refusals));
    const days = dailyLightIntegrals(weather.value, weather.value.globalWM2.map((globalWM2) => ppfdOfGlobal(globalWM2)));
    expect(days).toHaveLength(365);
    const mean = (from: number, to: number) => days.slice(from, to).reduce((sum, day) => sum + day, 0) / (to - from);
    console.log(`light ${name.slice(4, 18)}: outdoor June ${mean(151, 181).toFixed(1)}, December ${mean(334, 365).toFixed(1)} mol/m2/d (counted independently: ${june}, ${december})`);
    expect(Math.abs(mean(151, 181) - june)).toBeLessThan(0.06);
    expect(Math.abs(mean(334, 365) - december)).toBeLessThan(0.06);
  });
});

describe('light inside', () => {
  it('keeps the two pairs 12 % apart', () => {
    expect(ppfdOfGlobal(1) * 100).toBeCloseTo(205.65, 9);
    expect(ppfdOfGlobal(100, VANTHOOR_PAIR)).toBeCloseTo(230, 9);
    expect(SUN_PAIR.source).toContain('4.57');
  });
  it('multiplies layers with the light between them', () => {
    // Glass 0.85, screen 0.6, reflections 0.13 and 0.35: 0.51 / (1 - 0.0455) by hand.
    expect(throughTwoLayers(0.85, 0.6, 0.13, 0.35)).toBeCloseTo(0.534311, 6);
  });
  it('intercepts by Monsi & Saeki', () => expect(interceptedShare(2, 0.7)).toBeCloseTo(0.753403, 6));
  it('knows the power of the lamps', () => expect(lampPowerWM2(LAMPS)).toBe(80));

  it('knows spans over midnight', () => {
    expect([1, 2, 17.9, 18].map((hour) => isWithin(hour, 2, 18))).toEqual([false, true, true, false]);
    expect([21, 22, 23, 0, 5, 6].map((hour) => isWithin(hour, 22, 6))).toEqual([false, true, true, true, true, false]);
    expect(isWithin(3, 0, 0)).toBe(true);
    expect([0, 23].map((hour) => isWithin(hour, 0, 24))).toEqual([true, true]);
  });

  it('switches lamps by clock, sun and target, the last hour in part', () => {
    expect(lampShareByRule(LAMPS, 1, 0, 0, 0)).toBe(0);
    expect(lampShareByRule(LAMPS, 2, 0, 0, 0)).toBe(1);
    expect(lampShareByRule(LAMPS, 12, 401, 0, 0)).toBe(0);
    expect(lampShareByRule(LAMPS, 12, 400, 0, 0.5)).toBe(1);
    expect(lampShareByRule(LAMPS, 12, 100, 9.5, 0.14)).toBeCloseTo(0.36 / 0.72, 9);
    expect(lampShareByRule(LAMPS, 12, 100, 9.9, 0.3)).toBe(0);
    expect(lampShareByRule({ ...LAMPS, targetDliMolM2: undefined }, 12, 100, 99, 0)).toBe(1);
  });

  it('sums by local day, parts of days included', () => {
    const grid = { startUtcMs: Date.UTC(2026, 0, 1, 6), utcOffsetH: -8, hours: 50 }; // 22:00 local
    expect(dailyLightIntegrals(grid, new Float64Array(50).fill(1e6 / 3600)).map((mol) => Math.round(mol))).toEqual([2, 24, 24]);
  });
});
