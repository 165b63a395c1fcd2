import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { climateCases, sharedFile } from '../../../test/climateCases.ts';
import type { Outcome } from '../refusal.ts';
import { GLASS_BAY } from './bayDesign.ts';
import { simulateClimateInside } from './climateInside.ts';
import { completeWeather } from './completeWeather.ts';
import { extraterrestrialNormalWM2 } from './diffuseLight.ts';
import { dayOfYear } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import type { MonthMeans } from './monthlyWeather.ts';
import { assumedVariability, weatherFromMonths } from './monthlyWeather.ts';
import { readEpw } from './readEpw.ts';
import type { CompleteWeather } from './types.ts';
import { estimateVariability, outlookMember, prepareEnsemble } from './weatherEnsemble.ts';

const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
};
const PLACE = { name: 'Harbour', latitudeDeg: 48, longitudeDeg: -123.5, elevationM: 90, utcOffsetH: -8 };
const DAYS = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];
const starts = DAYS.map((_, month) => DAYS.slice(0, month).reduce((sum, one) => sum + one, 0) * 24);
const monthMean = (values: Float64Array, month: number): number => {
  const part = values.subarray(starts[month], (starts[month] as number) + (DAYS[month] as number) * 24);
  return part.reduce((sum, one) => sum + one, 0) / part.length;
};
const mild = (change: Partial<MonthMeans> = {}): MonthMeans[] => Array.from({ length: 12 }, () => ({ airC: 10, dailyRangeK: 8, rhPct: 80, globalMJM2: 6, windMS: 3, ...change }));

describe('weatherFromMonths', () => {
  it('repeats steady months hour by hour', () => {
    const year = value(weatherFromMonths(mild(), PLACE));
    expect([year.hours, year.kind, year.windMS[100], year.co2Ppm[100]]).toEqual([8760, 'typical-year', 3, 420]);
    // 10 + 4 cos(0.5 h) at the hour after the top at 15:00; 10 - 4 at 03:00.
    expect(year.airC[15]).toBeCloseTo(10 + 4 * Math.cos(Math.PI / 24), 9);
    expect(year.airC[2]).toBeCloseTo(10 - 4 * Math.cos(Math.PI / 24), 9);
    expect(year.rhPct[2]).toBe(100);
    expect(year.rhPct[20]).toBeCloseTo(80 * Math.exp(17.27 * 10 / 247.3) / Math.exp(17.27 * (year.airC[20] as number) / (237.3 + (year.airC[20] as number))), 1);
    expect(monthMean(year.globalWM2, 5) * 0.0864).toBeCloseTo(6, 6);
    expect(year.diffuseWM2[12]).toBeLessThanOrEqual(year.globalWM2[12] as number);
  });

  it('runs on straight lines between the middles of months, round the year', () => {
    const year = value(weatherFromMonths(mild({ dailyRangeK: 0 }).map((month, index) => ({ ...month, airC: index === 0 ? 22 : 10 })), PLACE));
    const at = (day: number) => year.airC[day * 24 + 12] as number;
    expect(Math.abs(monthMean(year.airC, 0) - 22)).toBeLessThan(0.01);
    expect(Math.abs(monthMean(year.airC, 1) - 10)).toBeLessThan(0.01);
    expect(at(15)).toBeGreaterThan(24); // a lone warm month needs a summit
    expect(at(18) - at(17)).toBeCloseTo(at(28) - at(27), 6); // one line from the middle of January to that of February
    expect(at(364) - at(363)).toBeCloseTo(at(1) - at(0), 6); // and one over New Year
    expect(at(0) - at(364)).toBeCloseTo(at(1) - at(0), 6);
    expect(at(200)).toBeCloseTo(10, 1);
  });

  it('is never clearer than a cloudless day', () => {
    const year = value(weatherFromMonths(mild({ globalMJM2: 44 }), PLACE));
    const above = hourlyCosines(year, PLACE).map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(year, hour)));
    expect(monthMean(year.globalWM2, 11) / monthMean(above, 11)).toBeCloseTo(0.8, 9);
  });

  it('refuses eleven months and impossible means, each with its path', () => {
    for (const [key, [least, most]] of Object.entries({ airC: [-60, 50], dailyRangeK: [0, 40], rhPct: [1, 100], globalMJM2: [0, 45], windMS: [0, 40] } as const)) {
      for (const inside of [least, most]) expect(weatherFromMonths(mild({ [key]: inside }), PLACE).ok).toBe(true);
      for (const outside of [least - 0.01, most + 0.01]) expect(weatherFromMonths(mild({ [key]: outside }), PLACE).ok).toBe(false);
    }
    const short = weatherFromMonths(mild().slice(1), PLACE);
    expect(short.ok ? short : short.refusals[0]).toMatchObject({ code: 'value-missing', value: 11 });
    const wrong = weatherFromMonths(mild().map((month, index) => (index === 3 ? { ...month, rhPct: 0, globalMJM2: NaN } : month)), PLACE);
    expect(wrong.ok ? [] : wrong.refusals.map((one) => one.path)).toEqual(['months[3].rhPct', 'months[3].globalMJM2']);
  });
});

describe.skipIf(climateCases === undefined)('weatherFromMonths against the years its means come from', () => {
  const SITES = [['Chicago', 'USA_IL_Chicago-OHare.Intl.AP.725300_TMY3.epw'], ['Port Angeles', 'USA_WA_Port.Angeles-William.R.Fairchild.Intl.AP.727885_TMY3.epw'], ['Tucson', 'USA_AZ_Davis-Monthan.AFB.722745_TMY3.epw']] as const;
  const years = SITES.map(([name, file]) => [name, value(completeWeather(value(readEpw(readFileSync(sharedFile(`weather/${file}`) as string, 'utf8'), file))))] as const);
  const meansOf = (year: CompleteWeather): MonthMeans[] => DAYS.map((days, month) => {
    let range = 0;
    for (let day = 0; day < days; day += 1) {
      const part = year.airC.subarray((starts[month] as number) + day * 24, (starts[month] as number) + day * 24 + 24);
      range += (Math.max(...part) - Math.min(...part)) / days;
    }
    return { airC: monthMean(year.airC, month), dailyRangeK: range, rhPct: monthMean(year.rhPct, month), globalMJM2: monthMean(year.globalWM2, month) * 0.0864, windMS: monthMean(year.windMS, month) };
  });

  it.each(years)('%s: months within 0.1 K and 1 % of light, yearly heat of a bay within 8 %', (name, year) => {
    const made = value(weatherFromMonths(meansOf(year), year.place));
    for (let month = 0; month < 12; month += 1) {
      expect(Math.abs(monthMean(made.airC, month) - monthMean(year.airC, month))).toBeLessThan(0.1);
      expect(Math.abs(monthMean(made.globalWM2, month) / monthMean(year.globalWM2, month) - 1)).toBeLessThan(0.01);
    }
    const heat = (weather: CompleteWeather) => simulateClimateInside(weather, GLASS_BAY, 0, 8760).heatWhM2.reduce((sum, one) => sum + one, 0) / 1000;
    const [ofMonths, ofYear] = [heat(made), heat(year)];
    console.log(`monthly weather, ${name}: yearly heat of a bay ${ofMonths.toFixed(0)} kWh/m2 from months, ${ofYear.toFixed(0)} from the year itself`);
    expect(Math.abs(ofMonths / ofYear - 1)).toBeLessThan(name === 'Tucson' ? 0.12 : 0.08);
  });

  it('assumes the mean spread of the three years', () => {
    const found = years.map(([, year]) => value(estimateVariability(year)));
    const mean = (pick: (index: number) => number) => found.reduce((sum, _, index) => sum + pick(index), 0) / 3;
    const assumed = value(assumedVariability(years[1]?.[1] as CompleteWeather));
    expect(assumed.temperature.deviation.mean).toBeCloseTo(mean((index) => found[index]?.temperature.deviation.mean as number), 1);
    expect(Math.abs(assumed.temperature.memory - mean((index) => found[index]?.temperature.memory as number))).toBeLessThan(0.006);
    expect(assumed.clearness.deviation.mean).toBeCloseTo(mean((index) => found[index]?.clearness.deviation.mean as number), 2);
    expect(assumed.clearness.memory).toBeCloseTo(mean((index) => found[index]?.clearness.memory as number), 2);
    const smooth = value(weatherFromMonths(mild(), PLACE));
    const ensemble = prepareEnsemble(smooth, value(assumedVariability(smooth)), Date.UTC(2026, 3, 1, 8), 48);
    expect(outlookMember(ensemble, Float64Array.of(1, 0, 0, 0)).airC[12]).toBeGreaterThan(outlookMember(ensemble, new Float64Array(4)).airC[12] as number);
    expect(assumedVariability({ ...smooth, hours: 24, airC: smooth.airC.subarray(0, 24) }).ok).toBe(false);
  });
});
