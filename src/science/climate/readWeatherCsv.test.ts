import { describe, expect, it } from 'vitest';
import type { Outcome } from '../refusal.ts';
import { parseStampMs, readWeatherCsv } from './readWeatherCsv.ts';
import type { WeatherPlace, WeatherSeries } from './types.ts';
import { valueAt, whyAbsent } from './weatherSeries.ts';

const PLACE: WeatherPlace = { name: 'Harbour', latitudeDeg: 55.5, longitudeDeg: -4.5, elevationM: 12, utcOffsetH: -8 };
const HEAD = 'time,airC,rhPct,globalWm2,windMS';
const read = (text: string, place = PLACE): Outcome<WeatherSeries> => readWeatherCsv(text, 'weather.csv', place);
const value = (outcome: Outcome<WeatherSeries>): WeatherSeries => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
};

describe('readWeatherCsv', () => {
  it('takes times as local standard time at the start of the hour', () => {
    const series = value(read(`# our own station\n${HEAD}\n2026-03-01T00:00,6.4,91,0,3.2\n2026-03-01T01:00,6.0,92,10,3.0\n`));
    expect([series.startUtcMs, series.hours, series.kind, series.airValues, series.utcOffsetH]).toEqual([Date.UTC(2026, 2, 1, 8), 2, 'dated', 'hour-mean', -8]);
    expect((['airC', 'rhPct', 'globalWM2', 'windMS'] as const).map((quantity) => valueAt(series, quantity, 1))).toEqual([6, 92, 10, 3]);
  });

  it('averages closer rows by the hour they begin in, empty cells aside', () => {
    const series = value(read(`${HEAD},co2Ppm\n2026-03-01T00:10,6,90,0,3,400\n2026-03-01T00:50,8,,0,3,410\n2026-03-01T01:00,9,80,0,3,`));
    expect([valueAt(series, 'airC', 0), valueAt(series, 'rhPct', 0), valueAt(series, 'co2Ppm', 0)]).toEqual([7, 90, 405]);
    expect(valueAt(series, 'co2Ppm', 1)).toBeUndefined();
    expect(whyAbsent(series, 'co2Ppm', 1)).toContain('no co2Ppm between 2026-03-01T09:00');
  });

  it('keeps hours without a row absent', () => {
    const series = value(read(`${HEAD}\n2026-03-01T00:00,6,90,0,3\n2026-03-01T03:00,8,90,0,3`));
    expect([0, 1, 2, 3].map((hour) => valueAt(series, 'airC', hour))).toEqual([6, undefined, undefined, 8]);
  });

  it('takes optional columns and stated zones, and half-hour zones of places', () => {
    const series = value(read(`time,globalWm2,diffuseWm2,skyIrWm2,pressurePa,windMS,rhPct,airC\n2026-03-01T08:00Z,1,2,3,99000,5,6,7`));
    expect(series.startUtcMs).toBe(Date.UTC(2026, 2, 1, 8));
    expect((['globalWM2', 'diffuseWM2', 'skyIrWM2', 'pressurePa', 'windMS', 'rhPct', 'airC'] as const).map((quantity) => valueAt(series, quantity, 0))).toEqual([1, 2, 3, 99_000, 5, 6, 7]);
    expect(value(read(`${HEAD}\n2026-03-01T00:20,6,90,0,3`, { ...PLACE, utcOffsetH: 5.5 })).startUtcMs).toBe(Date.UTC(2026, 1, 28, 18, 30));
  });

  it.each([
    ['an empty file', '', 'value-missing', 'weather.csv:1:1'],
    ['a file of comments', '# nothing\n', 'value-missing', 'weather.csv:1:1'],
    ['no rows', HEAD, 'value-missing', 'weather.csv:2:1'],
    ['a missing column', 'time,airC,rhPct,windMS\n2026-03-01T00:00,1,2,3', 'value-missing', 'weather.csv:1:1'],
    ['an unknown column', `${HEAD},rain\n2026-03-01T00:00,1,2,3,4,5`, 'key-unknown', 'weather.csv:1:34'],
    ['a name of the language itself', `${HEAD},constructor\n2026-03-01T00:00,1,2,3,4,5`, 'key-unknown', 'weather.csv:1:34'],
    ['a doubled column', `${HEAD},airC\n2026-03-01T00:00,1,2,3,4,5`, 'duplicate', 'weather.csv:1:34'],
    ['a short row', `${HEAD}\n2026-03-01T00:00,1,2,3`, 'syntax', 'weather.csv:2:1'],
    ['a day that is not', `${HEAD}\n2026-02-30T00:00,1,2,3,4`, 'value-not-allowed', 'weather.csv:2:1'],
    ['a doubled time', `${HEAD}\n2026-03-01T00:00,1,2,3,4\n2026-03-01T00:00,1,2,3,4`, 'duplicate', 'weather.csv:3:1'],
    ['a falling time', `${HEAD}\n2026-03-01T02:00,1,2,3,4\n2026-03-01T01:00,1,2,3,4`, 'inconsistent', 'weather.csv:3:1'],
    ['a word', `${HEAD}\n2026-03-01T00:00,1,two,3,4`, 'value-not-a-number', 'weather.csv:2:20'],
    ['a humidity in excess', `${HEAD}\n2026-03-01T00:00, 1, 102,3,4`, 'value-out-of-range', 'weather.csv:2:22'],
    ['a century', `${HEAD}\n2026-03-01T00:00,1,2,3,4\n2126-03-01T00:00,1,2,3,4`, 'value-out-of-range', 'weather.csv:3:1'],
  ])('refuses %s with its place', (_, text, code, path) => {
    const outcome = read(text);
    expect(outcome.ok ? outcome : outcome.refusals[0]).toMatchObject({ code, path });
  });

  it('takes each quantity up to its limits and no further', () => {
    const ranges = {
      airC: [-60, 60], rhPct: [0, 100], globalWm2: [0, 1500], windMS: [0, 60], diffuseWm2: [0, 1500], skyIrWm2: [0, 1000], pressurePa: [31_000, 120_000], co2Ppm: [200, 2000],
    } as const;
    const usual = { airC: 10, rhPct: 80, globalWm2: 100, windMS: 3, diffuseWm2: 50, skyIrWm2: 300, pressurePa: 101_000, co2Ppm: 420 };
    const codes = (change: Partial<typeof usual>) => {
      const row = { ...usual, ...change };
      const outcome = read(`time,${Object.keys(row).join()}\n2026-03-01T00:00,${Object.values(row).join()}`);
      return outcome.ok ? [] : outcome.refusals.map(({ code }) => code);
    };
    for (const [name, [least, most]] of Object.entries(ranges)) {
      for (const value of [least, most]) expect(codes({ [name]: value }), `${name} ${value}`).toEqual([]);
      for (const value of [least - 0.1, most + 0.1]) expect(codes({ [name]: value }), `${name} ${value}`).toEqual(['value-out-of-range']);
    }
  });

  it('accepts exactly ten years of hours', () => {
    expect(read(`${HEAD}\n2016-01-01T00:00,1,2,3,4\n2025-12-31T23:00,1,2,3,4`).ok).toBe(true);
    expect(read(`${HEAD}\n2016-01-01T00:00,1,2,3,4\n2026-01-02T00:00,1,2,3,4`).ok).toBe(false);
  });
});

describe('parseStampMs', () => {
  it.each([
    ['2026-03-01T14:30', -8, Date.UTC(2026, 2, 1, 22, 30)], ['2026-03-01 14:30:15', 0, Date.UTC(2026, 2, 1, 14, 30, 15)],
    ['2026-03-01T14:30:15.25Z', -8, Date.UTC(2026, 2, 1, 14, 30, 15)], ['2026-03-01T14:30+05:30', -8, Date.UTC(2026, 2, 1, 9)], ['2026-03-01T14:30-0130', 0, Date.UTC(2026, 2, 1, 16)],
  ])('reads %s', (text, offset, expected) => expect(parseStampMs(text, offset)).toBe(expected));
  it.each(['', '2026-3-1T00:00', '2026-13-01T00:00', '2026-00-01T00:00', '2026-02-29T00:00', '2026-03-01T24:00', '2026-03-01T23:60', '2026-03-01T23:59:60', '01/03/2026 00:00'])('does not read %s', (text) => {
    expect(parseStampMs(text, 0)).toBeUndefined();
  });
});
