import { describe, expect, it } from 'vitest';
import { leakageM3M2S, roofVentM3M2S, vapourFlowKgM2S } from './airExchange.ts';
import { canopyUptakeUmolM2S, solveCarbonDioxide } from './bayCarbonDioxide.ts';
import { GLASS_BAY } from './bayDesign.ts';
import type { BayHour, OutdoorAir } from './bayHeat.ts';
import { solveAir } from './bayHeat.ts';
import { coldSurfaceC, keptFlowM3M2S, solveHumidity } from './bayHumidity.ts';
import { simulateClimateInside, sunPpfdInside } from './climateInside.ts';
import { relativeHumidityPct, saturationPressurePa, vapourPressurePa } from './moistAir.ts';
import { MEASURED_BITS, overlayMeasured } from './overlayMeasured.ts';
import { LETTUCE_UNDER_GLASS, LETTUCE_UNDER_LAMPS, transpirationLPerM2H } from './transpiration.ts';
import type { BayDesign, CompleteWeather, MeasuredClimate } from './types.ts';
import { ColumnBuilder } from './weatherSeries.ts';

/** Steady weather of some hours; the sun shines from 6 to 18 local time. */
function weather(hours: number, change: Partial<Record<'airC' | 'rhPct' | 'globalWM2' | 'windMS', number>> = {}): CompleteWeather {
  const fill = (value: number) => new Float64Array(hours).fill(value);
  const sun = Float64Array.from({ length: hours }, (_, hour) => (hour % 24 >= 6 && hour % 24 < 18 ? change.globalWM2 ?? 0 : 0));
  return {
    startUtcMs: Date.UTC(2026, 0, 10, 8), utcOffsetH: -8, hours, kind: 'dated', origin: ['steady'],
    place: { name: 'Harbour', latitudeDeg: 48, longitudeDeg: -123, elevationM: 0, utcOffsetH: -8 },
    airC: fill(change.airC ?? 3), rhPct: fill(change.rhPct ?? 80), pressurePa: fill(101_325), globalWM2: sun, diffuseWM2: sun, windMS: fill(change.windMS ?? 3), co2Ppm: fill(420),
  };
}
const OUT: OutdoorAir = { airC: 3, vapourPa: vapourPressurePa(3, 80), globalWM2: 0, windMS: 3, co2Ppm: 420 };
const NIGHT: BayHour = { day: false, screenClosed: true, lampWM2: 0 };
const DARK = { sunPpfd: 0, lampPpfd: 0 };

describe('solveHumidity', () => {
  const canopy = (insideC: number, vapourPa: number, bay: BayDesign, ppfdUmolM2S = 0, nature = LETTUCE_UNDER_LAMPS) =>
    transpirationLPerM2H({ airC: insideC, rhPct: relativeHumidityPct(insideC, vapourPa), ppfdUmolM2S, leafAreaIndex: bay.leafAreaIndex, groundCover: bay.groundCover }, nature) / 3600;
  const condensed = (bay: BayDesign, insideC: number, surfaceC: number, vapourPa: number) =>
    6.4e-9 * 1.21 * 1.86 * (insideC - surfaceC) ** 0.33 * Math.max(0, vapourPa - saturationPressurePa(surfaceC)) * (bay.coverToFloor / 1.21);

  it('closes the vapour balance with dew on the screen', () => {
    const bay = { ...GLASS_BAY, rhMaxPct: 100, leafAreaIndex: 3, groundCover: 0.95 };
    const air = solveAir(bay, OUT, NIGHT);
    const { vapourPa, extraFlowM3M2S } = solveHumidity(bay, NIGHT, air, OUT, DARK);
    const surface = coldSurfaceC(bay, NIGHT, air.airC, OUT);
    const lost = vapourFlowKgM2S(leakageM3M2S(bay, 3), vapourPa, air.airC, OUT.vapourPa, OUT.airC) + condensed(bay, air.airC, surface, vapourPa);
    expect(extraFlowM3M2S).toBe(0);
    expect(vapourPa).toBeGreaterThan(saturationPressurePa(surface));
    expect(Math.abs(lost / canopy(air.airC, vapourPa, bay) - 1)).toBeLessThan(0.015); // the canopy is taken as a line in vapour pressure
  });

  it('keeps the air of the hour before: the change over the hour is what was left over', () => {
    const bay = { ...GLASS_BAY, rhMaxPct: 100, leafAreaIndex: 1, groundCover: 0.5 };
    const air = solveAir(bay, OUT, NIGHT);
    const kept = { airC: 18.5, vapourPa: 900, co2Ppm: 420 };
    const { vapourPa } = solveHumidity(bay, NIGHT, air, OUT, DARK, kept);
    expect(keptFlowM3M2S(bay) * 3600).toBeCloseTo(4.2, 12);
    const stored = vapourFlowKgM2S(4.2 / 3600, vapourPa, air.airC, 900, 18.5);
    const lost = vapourFlowKgM2S(leakageM3M2S(bay, 3), vapourPa, air.airC, OUT.vapourPa, OUT.airC) + condensed(bay, air.airC, coldSurfaceC(bay, NIGHT, air.airC, OUT), vapourPa);
    expect(Math.abs((stored + lost) / canopy(air.airC, vapourPa, bay) - 1)).toBeLessThan(0.015);
  });

  it('condenses by the published coefficients, exactly where no canopy is in the way', () => {
    const bare = { ...GLASS_BAY, rhMaxPct: 100, leafAreaIndex: 0, groundCover: 0 };
    const air = solveAir(bare, OUT, NIGHT);
    const kept = { airC: 18.5, vapourPa: 1900, co2Ppm: 420 };
    const { vapourPa } = solveHumidity(bare, NIGHT, air, OUT, DARK, kept);
    const lost = vapourFlowKgM2S(leakageM3M2S(bare, 3), vapourPa, air.airC, OUT.vapourPa, OUT.airC) + condensed(bare, air.airC, coldSurfaceC(bare, NIGHT, air.airC, OUT), vapourPa);
    expect(lost / vapourFlowKgM2S(4.2 / 3600, 1900, 18.5, vapourPa, air.airC)).toBeCloseTo(1, 9);
    expect(vapourPa).toBeGreaterThan(saturationPressurePa(coldSurfaceC(bare, NIGHT, air.airC, OUT)));
  });

  it('opens vents until the limit holds, and not beyond what they give', () => {
    const bay = { ...GLASS_BAY, leafAreaIndex: 3, groundCover: 0.95 };
    const day: BayHour = { day: true, screenClosed: false, lampWM2: 0 };
    const mild = { ...OUT, airC: 12, vapourPa: vapourPressurePa(12, 70), globalWM2: 300 };
    const air = solveAir(bay, mild, day);
    const held = solveHumidity(bay, day, air, mild, { sunPpfd: 470, lampPpfd: 0 });
    expect(held.extraFlowM3M2S).toBeGreaterThan(0);
    expect(relativeHumidityPct(air.airC, held.vapourPa)).toBeCloseTo(87, 6);
    const tight = solveHumidity({ ...bay, ventAreaToFloor: 0.001 }, day, air, mild, { sunPpfd: 470, lampPpfd: 0 });
    expect(tight.extraFlowM3M2S).toBeCloseTo(roofVentM3M2S({ ...bay, ventAreaToFloor: 0.001 }, 1, air.airC, 12, 3), 12);
    expect(relativeHumidityPct(air.airC, tight.vapourPa)).toBeGreaterThan(90);
  });

  it('leaves vents shut where outdoor air is as humid', () => {
    const bay = { ...GLASS_BAY, leafAreaIndex: 3, groundCover: 0.95, rhMaxPct: 70 };
    const muggy = { ...OUT, airC: 20, vapourPa: vapourPressurePa(20, 100) };
    expect(solveHumidity(bay, NIGHT, solveAir(bay, muggy, NIGHT), muggy, DARK).extraFlowM3M2S).toBe(0);
  });

  it('takes the cold surface between inside and outside', () => {
    // Open, 3 m/s: outer resistance 1/6.4 = 0.15625; 18.5 - 0.13/0.28625 x 15.5. Closed: 18.5 - 0.13 x 3.23 x 15.5.
    expect(coldSurfaceC(GLASS_BAY, { ...NIGHT, screenClosed: false }, 18.5, OUT)).toBeCloseTo(18.5 - 0.4541485 * 15.5, 5);
    expect(coldSurfaceC(GLASS_BAY, NIGHT, 18.5, OUT)).toBeCloseTo(18.5 - 0.4199 * 15.5, 6);
  });

  it('uses sunlight or lamplight by what prevails', () => {
    const bay = { ...GLASS_BAY, rhMaxPct: 100, leafAreaIndex: 2, groundCover: 0.9 };
    const air = solveAir(bay, OUT, NIGHT);
    expect(solveHumidity(bay, NIGHT, air, OUT, { sunPpfd: 200, lampPpfd: 100 }).vapourPa).toBeGreaterThan(solveHumidity(bay, NIGHT, air, OUT, { sunPpfd: 100, lampPpfd: 200 }).vapourPa);
    expect(LETTUCE_UNDER_GLASS.nearInfraredPerUmol).toBeGreaterThan(0);
  });
});

describe('solveCarbonDioxide', () => {
  it('uptake by hand: 400 umol light, 1000 ppm, full cover', () => {
    // 20 and 0.0017 x 41.6 x 960 = 67.891: 20 x 67.891/87.891 - 1.5.
    expect(canopyUptakeUmolM2S(400, 1000, 1)).toBeCloseTo(20 * 67.8912 / 87.8912 - 1.5, 5);
    expect(canopyUptakeUmolM2S(0, 420, 0.5)).toBe(-0.75);
    expect(canopyUptakeUmolM2S(0, 20, 1)).toBe(-1.5);
  });
  const hour = { outdoorPpm: 420, flowM3M2S: 4e-4, ppfdUmolM2S: 300, groundCover: 0.9, mostDoseGM2H: 5 };
  it('falls below outdoors in light and rises in the dark', () => {
    const lit = solveCarbonDioxide(hour);
    expect(lit.doseGM2H).toBe(0);
    expect(lit.co2Ppm).toBeLessThan(420);
    expect(canopyUptakeUmolM2S(300, lit.co2Ppm, 0.9)).toBeCloseTo(4e-4 * 41.6 * (420 - lit.co2Ppm), 6);
    expect(solveCarbonDioxide({ ...hour, ppfdUmolM2S: 0 }).co2Ppm).toBeCloseTo(420 + 0.9 * 1.5 / (4e-4 * 41.6), 4);
  });
  it('holds the set-point within the largest dose', () => {
    const held = solveCarbonDioxide({ ...hour, setPpm: 900 });
    expect(held.co2Ppm).toBe(900);
    expect(held.doseGM2H).toBeCloseTo(3600 * 44.01e-6 * (canopyUptakeUmolM2S(300, 900, 0.9) + 4e-4 * 41.6 * 480), 9);
    const short = solveCarbonDioxide({ ...hour, setPpm: 900, mostDoseGM2H: 1 });
    expect(short.doseGM2H).toBe(1);
    expect(short.co2Ppm).toBeLessThan(900);
    expect(solveCarbonDioxide({ ...hour, ppfdUmolM2S: 0, setPpm: 430 }).doseGM2H).toBe(0);
  });
  it('remembers the air of the hour before', () => {
    const kept = solveCarbonDioxide({ ...hour, ppfdUmolM2S: 0, flowM3M2S: 2.5e-5, kept: { co2Ppm: 420, flowM3M2S: 4.2 / 3600 } });
    expect(kept.co2Ppm).toBeCloseTo(420 + 1.35 / ((2.5e-5 + 4.2 / 3600) * 41.6), 4);
  });
});

describe('simulateClimateInside', () => {
  it('lets sunlight through cover, structure and screen', () => {
    expect(sunPpfdInside(GLASS_BAY, 500, false)).toBeCloseTo(1028.25 * 0.765, 6);
    expect(sunPpfdInside(GLASS_BAY, 500, true)).toBeCloseTo(1028.25 * 0.765 * 0.6, 6);
  });

  it('heats a cold night, floats on a bright day, and has its hours in order', () => {
    const inside = simulateClimateInside(weather(48, { globalWM2: 500, airC: 12 }), GLASS_BAY, 24, 24);
    expect([inside.hours, inside.startUtcMs]).toEqual([24, Date.UTC(2026, 0, 11, 8)]);
    expect([inside.airC[3], inside.lampWhM2[3], inside.ppfdUmolM2S[3]]).toEqual([18.5, 0, 0]);
    // 1.21 x (4.41 + 0.4 x 3) x 6.5 K by hand, open screen at 12 C; humidity asks for nothing at night here.
    expect(inside.heatWhM2[3]).toBeGreaterThanOrEqual(1.21 * 5.61 * 6.5 - 1e-9);
    expect(inside.airC[12]).toBeGreaterThan(19.5);
    expect(inside.heatWhM2[12]).toBe(0);
    expect(inside.ppfdUmolM2S[12]).toBeCloseTo(500 * 0.45 * 4.57 * 0.765, 6);
  });

  it('is finite everywhere and repeats itself bit for bit', () => {
    const one = simulateClimateInside(weather(72, { globalWM2: 400 }), GLASS_BAY, 0, 72);
    expect(one).toEqual(simulateClimateInside(weather(72, { globalWM2: 400 }), GLASS_BAY, 0, 72));
    for (const array of [one.airC, one.rhPct, one.co2Ppm, one.ppfdUmolM2S, one.lampPpfdUmolM2S, one.heatWhM2, one.lampWhM2, one.co2DoseGM2]) expect(array.every(Number.isFinite)).toBe(true);
    expect(Math.max(...one.rhPct)).toBeLessThanOrEqual(100);
  });

  it('runs lamps by their rule, day by day, and heats with them', () => {
    const lamps = { ppfdUmolM2S: 200, efficacyUmolJ: 2.5, onFromH: 0, onUntilH: 18, offAboveGlobalWM2: 400, targetDliMolM2: 5 };
    const lit = simulateClimateInside(weather(48), { ...GLASS_BAY, lamps }, 0, 48);
    // 5 mol at 0.72 mol an hour: 6.944 hours of 80 W.
    expect(lit.lampWhM2.subarray(0, 24).reduce((sum, one) => sum + one, 0)).toBeCloseTo(80 * 5 / 0.72, 6);
    expect(lit.lampWhM2.subarray(24).reduce((sum, one) => sum + one, 0)).toBeCloseTo(80 * 5 / 0.72, 6);
    expect([lit.lampPpfdUmolM2S[0], lit.ppfdUmolM2S[0], lit.lampPpfdUmolM2S[7]]).toEqual([200, 200, 0]);
    const unlit = simulateClimateInside(weather(48), GLASS_BAY, 0, 48);
    // Lamps make it day: 1 K more set-point, 27.2 W of useful heat.
    expect((unlit.heatWhM2[2] as number) - (lit.heatWhM2[2] as number)).toBeCloseTo(0.34 * 80 - 1.21 * (2.93 + 0.3), 6);
    const planned = simulateClimateInside(weather(48), { ...GLASS_BAY, lamps }, 0, 48, new Float64Array(48).fill(0.25));
    expect(planned.lampWhM2[30]).toBe(20);
  });

  it('doses carbon dioxide only in light with vents shut', () => {
    const inside = simulateClimateInside(weather(24, { globalWM2: 150, airC: 0 }), { ...GLASS_BAY, co2SetPpm: 800, rhMaxPct: 100 }, 0, 24);
    expect([inside.co2Ppm[12], inside.co2DoseGM2[3]]).toEqual([800, 0]);
    expect(inside.co2DoseGM2[12]).toBeGreaterThan(0.5);
    const vented = simulateClimateInside(weather(24, { globalWM2: 900, airC: 25 }), { ...GLASS_BAY, co2SetPpm: 800 }, 0, 24);
    expect(vented.co2DoseGM2[12]).toBe(0);
    expect(vented.co2Ppm[12]).toBeGreaterThan(370);
  });

  it('will not reach beyond the weather', () => {
    expect(() => simulateClimateInside(weather(24), GLASS_BAY, 10, 15)).toThrow(RangeError);
    expect(() => simulateClimateInside(weather(24), GLASS_BAY, -1, 5)).toThrow(RangeError);
  });
});

describe('overlayMeasured', () => {
  const simulated = simulateClimateInside(weather(6), GLASS_BAY, 0, 6);
  const column = (values: readonly (number | undefined)[]) => {
    const builder = new ColumnBuilder(values.length);
    values.forEach((value, hour) => { if (value === undefined) builder.miss(hour, 'no reading'); else builder.set(hour, value); });
    return builder.build();
  };
  it('replaces what was measured and says so', () => {
    const measured: MeasuredClimate = { startUtcMs: simulated.startUtcMs + 3_600_000, utcOffsetH: -8, hours: 3, airC: column([21, undefined, 22]), ppfdUmolM2S: column([5, 6, 7]) };
    const both = overlayMeasured(simulated, measured);
    expect([both.airC[1], both.airC[2], both.airC[3], both.airC[4]]).toEqual([21, simulated.airC[2], 22, simulated.airC[4]]);
    expect(Array.from(both.measured)).toEqual([0, 9, 8, 9, 0, 0]);
    expect(both.rhPct).toBe(simulated.rhPct);
    expect(simulated.measured[1]).toBe(0);
    expect(MEASURED_BITS).toEqual({ airC: 1, rhPct: 2, co2Ppm: 4, ppfdUmolM2S: 8 });
  });
  it('copes with shifted, longer and distant grids', () => {
    const long: MeasuredClimate = { startUtcMs: simulated.startUtcMs - 2 * 3_600_000 - 900_000, utcOffsetH: -8, hours: 20, rhPct: column(Array.from({ length: 20 }, (_, hour) => 50 + hour)), co2Ppm: column(Array.from({ length: 20 }, () => 500)) };
    const both = overlayMeasured(simulated, long);
    expect([both.rhPct[0], both.rhPct[5], both.measured[0]]).toEqual([52, 57, 6]);
    expect(overlayMeasured(simulated, { ...long, startUtcMs: 0 }).rhPct).toEqual(simulated.rhPct);
  });
});
