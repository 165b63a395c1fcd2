import { describe, expect, it } from 'vitest';
import { HOUR_MS, localStamp } from './hourGrid.ts';
import { typicalOutlook } from './typicalWeather.ts';
import type { CompleteWeather } from './types.ts';

/** Weather whose air temperature is the number of its hour, so that the source of each hour can be read off. */
function numbered(hours: number, startUtcMs: number, kind: CompleteWeather['kind'], utcOffsetH = 0): CompleteWeather {
  const number = Float64Array.from({ length: hours }, (_, hour) => hour);
  return {
    startUtcMs, utcOffsetH, hours, kind, origin: ['w'], place: { name: 'x', latitudeDeg: 50, longitudeDeg: 0, elevationM: 0, utcOffsetH },
    airC: number, rhPct: number.map((one) => one + 0.1), pressurePa: number.map((one) => one + 0.2), globalWM2: number.map((one) => one + 0.3),
    diffuseWM2: number.map((one) => one + 0.4), windMS: number.map((one) => one + 0.5), co2Ppm: number.map((one) => one + 0.6),
  };
}

describe('typicalOutlook', () => {
  const year = numbered(8760, Date.UTC(2001, 0, 1, 8), 'typical-year', -8);

  it('takes the same calendar hour of a typical year, over New Year and back', () => {
    const outlook = typicalOutlook(year, Date.UTC(2026, 11, 31, 22) + 8 * HOUR_MS, 4);
    expect(Array.from(outlook.airC)).toEqual([8758, 8759, 0, 1]);
    expect([localStamp(outlook, 0), outlook.kind, outlook.hours]).toEqual(['2026-12-31T22:00', 'dated', 4]);
    expect(outlook.origin.at(-1)).toBe('4 hours from the same calendar hour of the typical or an earlier year');
    expect([outlook.rhPct, outlook.pressurePa, outlook.globalWM2, outlook.diffuseWM2, outlook.windMS, outlook.co2Ppm].map((one) => Math.round(10 * ((one[0] as number) - 8758)))).toEqual([1, 2, 3, 4, 5, 6]);
  });

  it('uses 28 February for 29 February', () => {
    const outlook = typicalOutlook(year, Date.UTC(2028, 1, 29, 8), 48);
    expect([outlook.airC[0], outlook.airC[23], outlook.airC[24]]).toEqual([58 * 24, 58 * 24 + 23, 59 * 24]);
  });

  it('takes a start within an hour back to the full local hour, half-hour zones included', () => {
    expect(typicalOutlook(year, Date.UTC(2026, 0, 1, 8, 40), 1).startUtcMs).toBe(Date.UTC(2026, 0, 1, 8));
    const half = numbered(8760, Date.UTC(2000, 11, 31, 18, 30), 'typical-year', 5.5);
    expect(typicalOutlook(half, Date.UTC(2025, 11, 31, 18, 45), 2)).toMatchObject({ startUtcMs: Date.UTC(2025, 11, 31, 18, 30), airC: Float64Array.of(0, 1) });
  });

  it('prefers its own hours of a history, then the latest year with that date', () => {
    const history = numbered(2 * 8760, Date.UTC(2022, 0, 1), 'dated');
    expect(Array.from(typicalOutlook(history, Date.UTC(2023, 11, 31, 23), 2).airC)).toEqual([2 * 8760 - 1, 8760]);
    expect(Array.from(typicalOutlook(history, Date.UTC(2021, 11, 31, 23), 2).airC)).toEqual([2 * 8760 - 1, 0]);
  });

  it('repeats the nearest week of a short file at the same clock hour, and says so', () => {
    const short = numbered(24 * 10 + 5, Date.UTC(2026, 2, 1), 'dated');
    const after = typicalOutlook(short, Date.UTC(2026, 2, 11, 4), 24 * 8);
    expect([after.airC[0], after.airC[1], after.airC[2]]).toEqual([244, 245 - 168, 246 - 168]);
    for (let hour = 0; hour < after.hours; hour += 1) expect((after.airC[hour] as number) % 24).toBe((hour + 4) % 24);
    expect(after.origin.slice(-2)).toEqual(['1 hours of the file itself', '191 hours repeated from the nearest days of a file that does not reach so far']);
    const before = typicalOutlook(short, Date.UTC(2026, 1, 27), 48);
    for (let hour = 0; hour < 48; hour += 1) expect((before.airC[hour] as number) % 24).toBe(hour % 24);
    expect(Math.max(...before.airC)).toBeLessThan(168);
    expect(Array.from(typicalOutlook(numbered(2, Date.UTC(2026, 2, 1), 'dated'), Date.UTC(2026, 2, 1, 2), 3).airC)).toEqual([0, 1, 0]);
    expect(Array.from(typicalOutlook(numbered(30, Date.UTC(2026, 2, 1), 'dated'), Date.UTC(2026, 2, 2, 6), 2).airC)).toEqual([6, 7]);
  });
});
