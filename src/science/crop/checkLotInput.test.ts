import { describe, expect, it } from 'vitest';
import { checkLotInput } from './checkLotInput.ts';
import { KNOWN_CROP_GROWTHS } from './cropGrowths.ts';
import type { LotForecastInput } from './lotForecast.ts';
import { createTwoStateLettuce } from './twoStateLettuce.ts';
import { findValidityAlarms } from './validityAlarms.ts';

const FIRST_DAY = 19_026; // 2022-02-03
const HOURS = 24 * 600;
const crop = KNOWN_CROP_GROWTHS['lettuce']!;
const hours = (value: number, count = HOURS) => new Float64Array(count).fill(value);
const climate = { startUtcHour: 24 * FIRST_DAY, utcOffsetH: 0, airC: hours(20), co2Ppm: hours(600), ppfdUmolM2S: hours(200) };
const lot = (change: Partial<LotForecastInput> = {}): LotForecastInput => ({
  crop, climate, planting: '2022-02-03', at: '2022-02-10', horizonDays: 30, seed: 7, members: 100, densities: [{ date: '2022-02-03', plantsPerM2: 45 }], samples: [], ...change,
});
const seen = (mean: number, relativeSd: number) => ({ observations: [{ date: '2022-02-08', quantity: 'leafAreaM2' as const, mean, relativeSd, from: 'scan' }] });
const sample = (plant: object) => ({ samples: [{ date: '2022-02-08', plants: [plant] }] });
const pathsOf = (change: Partial<LotForecastInput>) => checkLotInput(lot(change)).map(({ path }) => path);

describe('numbers of a lot', () => {
  const NUMBERS: readonly [string, (value: number) => Partial<LotForecastInput>, least: number, most: number, whole?: boolean][] = [
    ['members', (members) => ({ members }), 20, 5000, true], ['horizonDays', (horizonDays) => ({ horizonDays }), 0, 400, true],
    ['crop.seedlingDryG', (seedlingDryG) => ({ crop: { ...crop, seedlingDryG } }), 1e-5, 100], ['crop.seedlingLogSd', (seedlingLogSd) => ({ crop: { ...crop, seedlingLogSd } }), 0.01, 2],
    ['crop.readyFreshG', (readyFreshG) => ({ crop: { ...crop, readyFreshG } }), 0.1, 1e5], ['crop.readyShare', (readyShare) => ({ crop: { ...crop, readyShare } }), 0.01, 1],
    ['densities.0.plantsPerM2', (plantsPerM2) => ({ densities: [{ date: '2022-02-03', plantsPerM2 }] }), 0.1, 5000],
    ['samples.0.plants.0.freshG', (freshG) => sample({ freshG }), 1e-6, 1e5], ['samples.0.plants.0.dryG', (dryG) => sample({ dryG }), 1e-6, 1e5],
    ['observations.0.mean', (mean) => seen(mean, 0.1), 1e-6, 1e5], ['observations.0.relativeSd', (relativeSd) => seen(1, relativeSd), 0.005, 2],
  ];
  it.each(NUMBERS)('%s up to its limits and no further', (path, change, least, most, whole) => {
    for (const value of [least, most]) expect(pathsOf(change(value)), `${value}`).toEqual([]);
    for (const value of whole === true ? [least - 1, most + 1] : [least * 0.999, most * 1.001]) expect(pathsOf(change(value)), `${value}`).toEqual([path]);
  });

  it('wants the climate up to noon of the last day: 7 + 30 days and 12 hours', () => {
    const until = (count: number) => ({ climate: { ...climate, airC: hours(20, count), co2Ppm: hours(600, count), ppfdUmolM2S: hours(200, count) } });
    expect(pathsOf(until(37 * 24 + 12))).toEqual([]);
    expect(checkLotInput(lot(until(37 * 24 + 11)))[0]).toMatchObject({ path: 'climate', limit: [12, 900], message: expect.stringContaining('its last 1 hours are missing') as string });
  });
});

describe('alarms of validity', () => {
  const model = createTwoStateLettuce();
  it('let 2 % of the hours pass: 29 cold hours of 1464, not 30', () => {
    if (!model.ok) throw new Error('defaults refused');
    const cold = (count: number) => findValidityAlarms(lot({ at: '2022-02-03', horizonDays: 61, climate: { ...climate, airC: hours(20).fill(4, 100, 100 + count) } }), model.value);
    expect(cold(29)).toEqual([]);
    expect(cold(30)[0]).toMatchObject({ name: 'outside-valid-range', numbers: { outsideShare: 30 / 1464, least: 5, most: 40 } });
    expect(cold(30)[0]!.sentence).toContain('for 2 % of the time');
  });
});
