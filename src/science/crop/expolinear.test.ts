import { describe, expect, it } from 'vitest';
import { createExpolinear, expolinearMass, growExpolinear, growShortStep } from './expolinear.ts';
import type { GrowthModel } from './growthModel.ts';

function build(overrides = {}): GrowthModel {
  const made = createExpolinear(overrides);
  if (!made.ok) throw new Error(JSON.stringify(made.refusals));
  return made.value;
}

describe('expolinear function (Goudriaan & Monteith 1990)', () => {
  it('gives the worked values: C_m 0.326, R_m 0.23, t_b 10.5', () => {
    console.log('expolinear: checked against hand-worked values of w = (C_m/R_m) ln(1+exp(R_m(t-t_b))), Goudriaan & Monteith 1990');
    expect(expolinearMass(0.326, 0.23, 10.5, 10.5)).toBeCloseTo(0.982460786358879, 12); // C_m/R_m ln 2
    expect(expolinearMass(0.326, 0.23, 42, 10.5)).toBeCloseTo(10.270011279732241, 12);
    const slope = (expolinearMass(0.326, 0.23, 10.5 + 1e-5, 10.5) - expolinearMass(0.326, 0.23, 10.5 - 1e-5, 10.5)) / 2e-5;
    expect(slope).toBeCloseTo(0.163, 8); // C_m/2
  });

  it('carries on along the same curve in any step', () => {
    const start = expolinearMass(12, 0.2, 3, 15);
    expect(growExpolinear(start, 12, 0.2, 20)).toBeCloseTo(expolinearMass(12, 0.2, 23, 15), 10);
    expect(growExpolinear(growExpolinear(start, 12, 0.2, 8), 12, 0.2, 12)).toBeCloseTo(expolinearMass(12, 0.2, 23, 15), 10);
    expect(growExpolinear(1000, 1, 0.2, 5)).toBeCloseTo(1005, 9); // closed canopy: C_m a day
    expect(growExpolinear(5, 0, 0.2, 5)).toBe(5);
  });
});

describe('expolinear: the short step with one exponential', () => {
  it('equals the closed form from seedling to closed canopy', () => {
    for (const w of [1e-4, 0.01, 1, 20, 60, 300, 3000]) {
      for (const y of [1e-4, 0.004, 0.0199]) {
        const exact = growExpolinear(w, 9.5, 0.2, y / 0.2);
        expect((growShortStep(w, 9.5, 0.2, y / 0.2) - w) / (exact - w)).toBeCloseTo(1, 5);
      }
    }
    expect(growShortStep(5, 0, 0.2, 0.01)).toBe(5);
  });
});

describe('expolinear model on degree-days: hand-worked steps', () => {
  it('a seedling grows by exp(r_m x degree-days): one day at 20 C, 0.0128 x 16 = 0.2048', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 1e-5, plantsPerM2: 100 });
    for (let h = 0; h < 24; h += 1) model.step(state, { airC: 20, co2Ppm: 400, ppfdUmolM2S: h >= 6 && h < 18 ? 300 : 0 }, 3600);
    expect(state[0]! / 1e-3).toBeCloseTo(Math.exp(0.2048), 4);
    expect(state[1]).toBeCloseTo(16, 10);
  });

  it('a closed canopy makes light use x light: 0.55 g/mol x 200 umol/m2/s x 86400 s = 9.504 g/m2/d', () => {
    const model = build({ light_days: 0.25 });
    const state = Float64Array.of(2000, 0, 200);
    for (let h = 0; h < 24; h += 1) model.step(state, { airC: 18, co2Ppm: 400, ppfdUmolM2S: 200 }, 3600);
    expect(state[0]).toBeCloseTo(2009.504, 6);
  });

  it('at the point where the two meet (R_m w = C_m ln 2) it grows at half the light rate', () => {
    const model = build();
    const cM = 9.504;
    const rM = 0.0128 * 16;
    const w = cM / rM * Math.LN2;
    const state = Float64Array.of(w, 0, 200);
    model.step(state, { airC: 20, co2Ppm: 400, ppfdUmolM2S: 200 }, 60);
    expect((state[0]! - w) * 1440).toBeCloseTo(cM / 2, 2);
  });

  it('remembers light for a day: after six dark hours 200 has faded to 200 exp(-1/4)', () => {
    const model = build();
    const state = Float64Array.of(10, 0, 200);
    for (let h = 0; h < 6; h += 1) model.step(state, { airC: 20, co2Ppm: 400, ppfdUmolM2S: 0 }, 3600);
    expect(state[2]).toBeCloseTo(200 * Math.exp(-0.25), 9);
  });

  it('does not grow below the base, and no faster above the full temperature', () => {
    const model = build();
    const grownAt = (airC: number) => {
      const state = Float64Array.of(1, 0, 200);
      model.step(state, { airC, co2Ppm: 400, ppfdUmolM2S: 200 }, 3600);
      return state[0]!;
    };
    expect(grownAt(4)).toBe(1);
    expect(grownAt(-3)).toBe(1);
    expect(grownAt(30)).toBe(grownAt(24));
    expect(grownAt(23)).toBeLessThan(grownAt(24));
  });

  it('starts with 12 mol/m2/d of light and no degree-days; gives leaf area 0.035 m2/g and cover 1 - exp(-0.7 LAI)', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 0.5, plantsPerM2: 40 });
    expect(state[0]).toBe(20);
    expect(state[1]).toBe(0);
    expect(state[2]! * 0.0864).toBeCloseTo(12, 10);
    expect(model.leafAreaIndex(state)).toBeCloseTo(0.7, 12);
    expect(model.groundCover(state)).toBeCloseTo(1 - Math.exp(-0.49), 12);
    model.respace(state, 40, 20);
    expect(model.shootDryGPerM2(state) / 20).toBe(0.5);
  });

  it('advances members as it steps one', () => {
    const model = build();
    const climate = { startUtcHour: 0, utcOffsetH: 0, airC: Float64Array.of(18, 3, 21), co2Ppm: Float64Array.of(420, 600, 800), ppfdUmolM2S: Float64Array.of(0, 200, 500) };
    const members = { members: 2, states: [Float64Array.of(20, 20), Float64Array.of(0, 0), Float64Array.of(100, 100)], assimilation: Float64Array.of(1, 0.5), expansion: Float64Array.of(1, 1) };
    model.advanceMembers(members, climate, 0, 3);
    const alone = Float64Array.of(20, 0, 100);
    for (let i = 0; i < 3; i += 1) model.step(alone, { airC: climate.airC[i]!, co2Ppm: 400, ppfdUmolM2S: climate.ppfdUmolM2S[i]! }, 3600);
    members.states.forEach((column, s) => expect(column[0]! / alone[s]!).toBeCloseTo(1, 9));
    expect(members.states[0]![1]).toBeLessThan(members.states[0]![0]!);
  });
});
