import { describe, expect, it } from 'vitest';
import { extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';
import { dayOfYear, localStamp } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import type { CompleteWeather } from './types.ts';
import type { WeatherVariability } from './weatherEnsemble.ts';
import { estimateVariability, outlookMember, prepareEnsemble } from './weatherEnsemble.ts';
import { fitYearCurve, yearCurveAt } from './yearCurve.ts';

const PLACE = { name: 'x', latitudeDeg: 48, longitudeDeg: -120, elevationM: 0, utcOffsetH: -8 };
const START = Date.UTC(2001, 0, 1, 8);

/** Repeatable uniform and standard normal numbers (Park & Miller 1988; Box & Muller 1958). */
function normals(seed: number): () => number {
  let state = seed;
  const uniform = () => { state = (state * 48_271) % 2_147_483_647; return state / 2_147_483_647; };
  return () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

/** A year whose daily temperature and clearness follow known courses and anomalies. */
function year(temperature: (day: number) => number, clearness: (day: number) => number): CompleteWeather {
  const grid = { startUtcMs: START, utcOffsetH: -8, hours: 8760 };
  const cosines = hourlyCosines(grid, PLACE);
  const airC = Float64Array.from({ length: 8760 }, (_, hour) => temperature(Math.floor(hour / 24)) + 3 * Math.sin((hour % 24 - 9) * Math.PI / 12));
  const globalWM2 = cosines.map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(grid, hour)) * clearness(Math.floor(hour / 24)));
  const fill = (value: number) => new Float64Array(8760).fill(value);
  return { ...grid, place: PLACE, kind: 'typical-year', origin: ['made'], airC, rhPct: fill(80), pressurePa: fill(101_325), globalWM2, diffuseWM2: globalWM2, windMS: fill(3), co2Ppm: fill(420) };
}
const course = (day: number) => 10 - 8 * Math.cos(2 * Math.PI * (day + 1) / 365);
const steady = year(course, () => 0.4);
const dayMeans = (values: Float64Array) => Array.from({ length: values.length / 24 }, (_, day) => values.subarray(day * 24, day * 24 + 24).reduce((sum, one) => sum + one, 0) / 24);
/** First-order autoregression with memory 0.7 and standard deviation 3, and clearness with memory 0.3 and deviation 0.8 in log-odds. */
function wild(): CompleteWeather {
  const draw = normals(11);
  let [warm, clear] = [0, 0];
  const days = Array.from({ length: 365 }, () => {
    warm = 0.7 * warm + Math.sqrt(1 - 0.49) * draw();
    clear = 0.3 * clear + Math.sqrt(1 - 0.09) * draw();
    return { warm: 3 * warm, clear: 0.8 / (1 + Math.exp(-0.8 * clear)) };
  });
  return year((day) => course(day) + (days[day]?.warm as number), (day) => days[day]?.clear as number);
}
const value = (weather: CompleteWeather): WeatherVariability => {
  const outcome = estimateVariability(weather);
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
};

describe('yearCurve', () => {
  it('finds the harmonics it was made of', () => {
    const curve = fitYearCurve(Array.from({ length: 365 }, (_, index) => 5 + 2 * Math.cos(2 * Math.PI * (index + 1) / 365) - Math.sin(4 * Math.PI * (index + 1) / 365)), 2);
    expect(curve.mean).toBeCloseTo(5, 9);
    expect(curve.harmonics.flat().map((one) => Math.round(one * 1e9) / 1e9 + 0)).toEqual([2, 0, 0, -1]);
    expect(yearCurveAt(curve, 365 / 4)).toBeCloseTo(5, 9);
    expect(yearCurveAt(curve, 365)).toBeCloseTo(7, 9);
  });
});

describe('estimateVariability', () => {
  it('recovers memory, spread and course of a made year', () => {
    const found = value(wild());
    expect(Math.abs(found.temperature.memory - 0.7)).toBeLessThan(0.1);
    expect(Math.abs(yearCurveAt(found.temperature.deviation, 100) - 3)).toBeLessThan(0.6);
    expect(Math.abs(yearCurveAt(found.temperature.course, 182) - course(181))).toBeLessThan(1.2);
    expect(Math.abs(found.clearness.memory - 0.3)).toBeLessThan(0.12);
    expect(Math.abs(yearCurveAt(found.clearness.deviation, 100) - 0.8)).toBeLessThan(0.15);
    expect(Math.abs(found.clearness.course.mean)).toBeLessThan(0.15); // 0.4 of 0.8: log-odds 0
  });
  it('follows a spread that changes with the season', () => {
    const draw = normals(5);
    const found = value(year((day) => course(day) + draw() * (4 + 2 * Math.cos(2 * Math.PI * day / 365)), () => 0.4));
    expect(yearCurveAt(found.temperature.deviation, 1)).toBeGreaterThan(1.8 * yearCurveAt(found.temperature.deviation, 182));
  });
  it('takes the first 365 days of a longer history', () => {
    const once = wild();
    const twice = <K extends 'airC' | 'globalWM2'>(key: K) => Float64Array.from([...once[key], ...once[key].map((one) => one * 0.5)]);
    const found = value({ ...once, hours: 17_520, airC: twice('airC'), globalWM2: twice('globalWM2') });
    expect(found.temperature.course.mean).toBeCloseTo(value(once).temperature.course.mean, 9);
    expect(found.clearness.course.mean).toBeCloseTo(value(once).clearness.course.mean, 9);
  });
  it('refuses less than a year', () => {
    const outcome = estimateVariability({ ...steady, hours: 8736, airC: steady.airC.subarray(0, 8736), globalWM2: steady.globalWM2.subarray(0, 8736) });
    expect(outcome.ok ? outcome : outcome.refusals[0]).toMatchObject({ code: 'value-missing', value: 364, limit: 365, path: 'made' });
  });
});

describe('outlookMember', () => {
  const from = Date.UTC(2026, 4, 3, 8);
  const variability = value(wild());
  const zeros = new Float64Array(200);

  it('without draws follows the smooth course of the year and keeps the shape of the day', () => {
    const smooth = value(steady);
    const member = outlookMember(prepareEnsemble(wild(), { ...smooth, clearness: { ...smooth.clearness, course: { mean: 0, harmonics: [] } } }, from, 240), zeros);
    dayMeans(member.airC).forEach((mean, day) => expect(Math.abs(mean - course(122 + day))).toBeLessThan(1.2)); // hours between middles of days are interpolated
    const above = hourlyCosines(member, PLACE).map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(member, hour)));
    dayMeans(member.globalWM2).forEach((mean, day) => expect(mean / (dayMeans(above)[day] as number)).toBeCloseTo(0.4, 6));
    expect(member.diffuseWM2[12]).toBeCloseTo(splitGlobal(member.globalWM2[12] as number, hourlyCosines(member, PLACE)[12] as number, dayOfYear(member, 12)).diffuseWM2, 9);
  });

  it('moves single days by their draws: temperature first, clearness second', () => {
    const ensemble = prepareEnsemble(steady, variability, from, 240);
    const calm = outlookMember(ensemble, zeros);
    const draws = new Float64Array(20);
    draws[2 * 4] = 1;
    draws[2 * 6 + 1] = 1;
    const moved = outlookMember(ensemble, draws);
    const warmer = dayMeans(moved.airC).map((mean, day) => mean - (dayMeans(calm.airC)[day] as number));
    expect(warmer[2]).toBeCloseTo(0, 9);
    const noonShift = (day: number) => (moved.airC[day * 24 + 12] as number) - (calm.airC[day * 24 + 12] as number);
    const { memory, deviation } = variability.temperature;
    expect(noonShift(4) / (Math.sqrt(1 - memory ** 2) * yearCurveAt(deviation, 127))).toBeCloseTo(1, 1);
    expect(noonShift(5) / noonShift(4)).toBeCloseTo(memory, 1);
    const brighter = dayMeans(moved.globalWM2).map((mean, day) => mean / (dayMeans(calm.globalWM2)[day] as number));
    expect(brighter[5]).toBeCloseTo(1, 9);
    expect(brighter[6]).toBeGreaterThan(1.2);
    expect(brighter[7]).toBeGreaterThan(1.01);
  });

  it('never exceeds a cloudless day nor falls below darkness, whatever the draws', () => {
    const ensemble = prepareEnsemble(wild(), variability, from, 240);
    for (const extreme of [-6, 6]) {
      const member = outlookMember(ensemble, new Float64Array(20).fill(extreme));
      const above = hourlyCosines(member, PLACE).map((cosine, hour) => cosine * extraterrestrialNormalWM2(dayOfYear(member, hour)));
      member.globalWM2.forEach((global, hour) => {
        expect(global).toBeGreaterThanOrEqual(0);
        expect(global).toBeLessThanOrEqual(0.8 * (above[hour] as number) + 1e-9);
      });
    }
  });

  it('starts from the weather there is', () => {
    const ensemble = prepareEnsemble(steady, variability, from, 72);
    const calm = outlookMember(ensemble, zeros);
    const warm = outlookMember(ensemble, zeros, { temperatureK: 5, clearnessOdds: -1 });
    const shift = (hour: number) => (warm.airC[hour] as number) - (calm.airC[hour] as number);
    expect(shift(0)).toBeCloseTo(5 * variability.temperature.memory, 6);
    expect(shift(60) / shift(36)).toBeCloseTo(variability.temperature.memory, 1);
    expect(warm.globalWM2[12]).toBeLessThan(calm.globalWM2[12] as number);
  });

  it('starts at any hour and asks for two draws a day it touches', () => {
    const ensemble = prepareEnsemble(steady, variability, from + 10 * 3_600_000, 24);
    expect(ensemble.drawsPerMember).toBe(4);
    const member = outlookMember(ensemble, new Float64Array(4));
    expect([member.hours, member.airC.length, localStamp(member, 0)]).toEqual([24, 24, '2026-05-03T10:00']);
    expect(() => outlookMember(ensemble, new Float64Array(3))).toThrow(RangeError);
  });

  it('spreads as the year it learnt from does', () => {
    const draw = normals(3);
    const ensemble = prepareEnsemble(steady, variability, from, 240);
    const days = Array.from({ length: 200 }, () => dayMeans(outlookMember(ensemble, Array.from({ length: 20 }, draw)).airC)[5] as number);
    const mean = days.reduce((sum, one) => sum + one, 0) / 200;
    const deviation = Math.sqrt(days.reduce((sum, one) => sum + (one - mean) ** 2, 0) / 199);
    const wanted = yearCurveAt(variability.temperature.deviation, 128);
    console.log(`weather ensemble: spread of a day's mean ${deviation.toFixed(2)} K, of the year it learnt from ${wanted.toFixed(2)} K`);
    expect(deviation / wanted).toBeGreaterThan(0.8);
    expect(deviation / wanted).toBeLessThan(1.1);
  });
});
