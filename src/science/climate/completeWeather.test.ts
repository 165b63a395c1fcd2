import { describe, expect, it } from 'vitest';
import type { Outcome } from '../refusal.ts';
import { completeWeather, OUTDOOR_CO2_PPM } from './completeWeather.ts';
import { extraterrestrialNormalWM2, splitGlobal } from './diffuseLight.ts';
import { HOUR_MS } from './hourGrid.ts';
import { hourlyCosines } from './hourlySun.ts';
import { saturationPressurePa, standardPressurePa } from './moistAir.ts';
import { cosineOfZenith } from './sun.ts';
import type { WeatherColumn, WeatherQuantity, WeatherSeries } from './types.ts';
import { ColumnBuilder } from './weatherSeries.ts';

const PLACE = { name: 'Harbour', latitudeDeg: 48, longitudeDeg: -123, elevationM: 500, utcOffsetH: -8 };
const HOURS = 48;

/** A column from values, undefined where absent. */
function column(value: (hour: number) => number | undefined): WeatherColumn {
  const builder = new ColumnBuilder(HOURS);
  for (let hour = 0; hour < HOURS; hour += 1) {
    const one = value(hour);
    if (one === undefined) builder.miss(hour, 'w.csv:9:1 is empty');
    else builder.set(hour, one);
  }
  return builder.build();
}

function series(columns: Partial<Record<WeatherQuantity, WeatherColumn>>, change: Partial<WeatherSeries> = {}): WeatherSeries {
  return {
    fileName: 'w.csv', place: PLACE, kind: 'dated', airValues: 'hour-mean', startUtcMs: Date.UTC(2026, 5, 1, 8), utcOffsetH: -8, hours: HOURS,
    columns: { airC: column((hour) => hour), rhPct: column(() => 80), globalWM2: column((hour) => (hour % 24 > 5 && hour % 24 < 20 ? 100 : 0)), windMS: column(() => 3), ...columns }, ...change,
  };
}
const value = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
};
const without = (...missing: number[]) => (hour: number, full: number): number | undefined => (missing.includes(hour) ? undefined : full);

describe('completeWeather', () => {
  it('takes hourly means as they are and says what it filled in', () => {
    const outcome = completeWeather(series({}));
    const weather = value(outcome);
    expect([...weather.airC]).toEqual(Array.from({ length: HOURS }, (_, hour) => hour));
    expect(weather.pressurePa[7]).toBe(standardPressurePa(500));
    expect(weather.co2Ppm[7]).toBe(OUTDOOR_CO2_PPM);
    expect(OUTDOOR_CO2_PPM).toBe(420);
    expect(weather.origin).toEqual(['w.csv', '48 hours of diffuse radiation from global radiation (Erbs et al. 1982)']);
    expect(outcome.ok && outcome.warnings.map((one) => one.severity)).toEqual(['warning']);
  });

  it('turns values at the end of the hour into means, and runs a typical year round', () => {
    const dated = value(completeWeather(series({}, { airValues: 'at-hour-end' })));
    expect(Array.from(dated.airC.subarray(0, 3))).toEqual([0, 0.5, 1.5]);
    expect(dated.globalWM2[12]).toBe(100); // radiation is a mean already
    const typical = value(completeWeather(series({}, { airValues: 'at-hour-end', kind: 'typical-year' })));
    expect(typical.airC[0]).toBe(47 / 2);
  });

  it('bridges three hours in a straight line, and keeps a lone edge', () => {
    const gap = without(0, 10, 11, 12, 47);
    const outcome = completeWeather(series({ airC: column((hour) => gap(hour, 2 * hour)) }));
    const weather = value(outcome);
    [20, 22, 24].forEach((expected, index) => expect(weather.airC[10 + index]).toBeCloseTo(expected, 9));
    expect([weather.airC[0], weather.airC[47]]).toEqual([2, 92]);
    expect(weather.origin).toContain('5 hours of airC bridged in a straight line');
  });

  it('refuses four hours on end, each gap with its own place', () => {
    const gap = without(10, 11, 12, 13, 30, 31, 32, 33, 34);
    const outcome = completeWeather(series({ windMS: column((hour) => gap(hour, 3)) }));
    expect(outcome.ok ? [] : outcome.refusals.map((one) => [one.code, one.path, one.value])).toEqual([
      ['value-missing', 'w.csv: 2026-06-01T10:00', 4], ['value-missing', 'w.csv: 2026-06-02T06:00', 5],
    ]);
    expect(outcome.ok ? '' : outcome.refusals[0]?.message).toContain('w.csv:9:1 is empty');
  });

  it('refuses a quantity that is not there at all', () => {
    const { airC: _, ...rest } = series({}).columns;
    const outcome = completeWeather({ ...series({}), columns: rest });
    expect(outcome.ok ? [] : outcome.refusals.map((one) => one.value)).toEqual([48]);
  });

  it('takes humidity from the dew point where it has to', () => {
    const weather = value(completeWeather(series({ rhPct: column((hour) => without(5, 6, 7, 8, 9)(hour, 80)), dewPointC: column((hour) => hour - 3) })));
    expect(weather.rhPct[7]).toBeCloseTo(100 * saturationPressurePa(4) / saturationPressurePa(7), 9);
    expect(weather.rhPct[4]).toBe(80);
    const foggy = value(completeWeather(series({ rhPct: column((hour) => without(5)(hour, 80)), dewPointC: column((hour) => hour + 1) })));
    expect(foggy.rhPct[5]).toBe(100);
  });

  it('takes global radiation from its parts, and bridges it along the course of the sun', () => {
    const cosines = hourlyCosines(series({}), PLACE);
    const above = (hour: number) => (cosines[hour] as number) * extraterrestrialNormalWM2(152 + Math.floor(hour / 24));
    const parts = value(completeWeather(series({
      globalWM2: column((hour) => without(11, 12, 13, 14, 15)(hour, 0.5 * above(hour))), directNormalWM2: column(() => 600), diffuseWM2: column((hour) => (cosines[hour] as number > 0 ? 50 : 0)),
    })));
    expect(parts.globalWM2[13]).toBeCloseTo(50 + 600 * (cosines[13] as number), 9);
    expect(parts.diffuseWM2[13]).toBe(50);
    const bridged = value(completeWeather(series({ globalWM2: column((hour) => without(0, 1, 11, 12, 13)(hour, 0.5 * above(hour))) })));
    for (const hour of [11, 12, 13]) expect(bridged.globalWM2[hour]).toBeCloseTo(0.5 * above(hour), 6);
    expect(bridged.globalWM2[0]).toBe(0);
    expect(bridged.diffuseWM2[12]).toBe(splitGlobal(bridged.globalWM2[12] as number, cosines[12] as number, 152).diffuseWM2);
  });

  it('never lets the diffuse part exceed the whole', () => {
    expect(value(completeWeather(series({ diffuseWM2: column(() => 400) }))).diffuseWM2[12]).toBe(100);
  });
});

describe('hourlyCosines', () => {
  it('is the mean over the hour, 0 at night', () => {
    const grid = { startUtcMs: Date.UTC(2026, 2, 20), utcOffsetH: 0, hours: 24 };
    const cosines = hourlyCosines(grid, { ...PLACE, latitudeDeg: 0, longitudeDeg: 0 });
    // Equinox at the equator: sine of 15 degrees an hour from sunrise at about 06:07; and a mean over every minute.
    const mean = (hour: number) => (12 / Math.PI) * (Math.cos((hour - 6.125) * Math.PI / 12) - Math.cos((hour - 5.125) * Math.PI / 12));
    expect(cosines[9]).toBeCloseTo(mean(9), 2);
    const minutes = (hour: number) => Array.from({ length: 60 }, (_, minute) => Math.max(0, cosineOfZenith(grid.startUtcMs + (hour + (minute + 0.5) / 60) * HOUR_MS, 0, 0))).reduce((sum, one) => sum + one / 60, 0);
    for (const hour of [7, 9, 12, 16]) expect(Math.abs((cosines[hour] as number) - minutes(hour))).toBeLessThan(0.0003);
    expect(cosines[3]).toBe(0);
    expect(cosines[6]).toBeGreaterThan(0.08);
    expect(HOUR_MS).toBe(3_600_000);
  });
});
