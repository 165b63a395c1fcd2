import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ClimateHour, GrowthModel } from './growthModel.ts';
import { createTwoStateLettuce } from './twoStateLettuce.ts';
import { TWO_STATE_LETTUCE_PARAMETERS } from './twoStateLettuceParameters.ts';
import { closedCanopyPhotosynthesis, hourOf, readTwoStateConstants, twoStateRates } from './twoStateLettuceRates.ts';

const VECTORS = '../shared/data/horticulture-test-vectors.json';

function asPublished(): GrowthModel {
  const made = createTwoStateLettuce();
  if (!made.ok) throw new Error('defaults refused');
  return made.value;
}

const published = asPublished();
const constants = readTwoStateConstants(TWO_STATE_LETTUCE_PARAMETERS, published.values);
const ppfdOf = (parWM2: number) => parWM2 / 0.217;

describe('two-state lettuce: rates of the worked vector (Van Henten 1994)', () => {
  // Computed from the published equations and parameters: X_n 1, X_s 10 g/m2, PAR 100 W/m2, 700 ppm, 20 C.
  const hour: ClimateHour = { airC: 20, co2Ppm: 700, ppfdUmolM2S: ppfdOf(100) };

  it('gives the worked rates', () => {
    const rates = twoStateRates(constants, hourOf(constants, hour), 1, 10);
    expect(rates.dXn / 2.4198188900077225e-4).toBeCloseTo(1, 10);
    expect(rates.dXs / 4.545454545454546e-6).toBeCloseTo(1, 10);
    expect(closedCanopyPhotosynthesis(constants, hour) / 8.41655198407295e-4).toBeCloseTo(1, 10);
    expect(hourOf(constants, hour).resp * 10 / 2.2086480310361816e-6).toBeCloseTo(1, 10);
  });

  it('assimilates nothing in the dark, below the compensation point and where carboxylation stops', () => {
    expect(closedCanopyPhotosynthesis(constants, { ...hour, ppfdUmolM2S: 0 })).toBe(0);
    expect(closedCanopyPhotosynthesis(constants, { ...hour, co2Ppm: 40 })).toBe(0);
    expect(closedCanopyPhotosynthesis(constants, { ...hour, airC: 4 })).toBe(0);
  });
});

describe.skipIf(!existsSync(VECTORS))('two-state lettuce: worked points and trajectories (shared vectors, from Van Henten 1994)', () => {
  const vector = existsSync(VECTORS) ? JSON.parse(readFileSync(VECTORS, 'utf8')).van_henten_1994 : undefined;

  it('has the 1994 parameter set, not one of the other sets in circulation', () => {
    const p = vector.params;
    expect(Array.from(published.values.subarray(0, 20))).toEqual([
      p.ca, p.cb, p.cgr, p.cg, p.q10gr, p.rs, p.rr, p.q10r, p.ct, p.ck, p.clar, p.cw, p.cG, p.q10G, p.ce, p.gb, p.gs, p.c1, p.c2, p.c3,
    ]);
  });

  it('gives the rates at four points', () => {
    for (const row of vector.point_rates) {
      const hour = hourOf(constants, { airC: row.T, co2Ppm: row.CO2, ppfdUmolM2S: ppfdOf(row.PAR) });
      const rates = twoStateRates(constants, hour, row.Xn, row.Xs);
      expect(rates.dXn / row.dXn_dt).toBeCloseTo(1, 9);
      expect(rates.dXs / row.dXs_dt).toBeCloseTo(1, 9);
    }
  });

  const constantClimate: ClimateHour = { airC: 15, co2Ppm: 700, ppfdUmolM2S: ppfdOf(50) };
  const diurnalClimate = (s: number): ClimateHour => {
    const h = (s / 3600) % 24;
    const day = h >= 6 && h < 18;
    return { airC: day ? 18 : 12, co2Ppm: day ? 600 : 400, ppfdUmolM2S: day ? ppfdOf(100 * Math.sin(Math.PI * (h - 6) / 12)) : 0 };
  };

  it('follows both trajectories at 60 s steps to 0.01 %, and at hourly steps with hourly means to 0.6 %', () => {
    const fine = Math.max(followError(vector.trajectory_constant, () => constantClimate, 60), followError(vector.trajectory_diurnal, diurnalClimate, 60));
    const hourly = Math.max(followError(vector.trajectory_constant, () => constantClimate, 3600), followError(vector.trajectory_diurnal, hourMean(diurnalClimate), 3600));
    console.log(`two-state lettuce against trajectories of the published equations (RK4, 60 s): largest error of dry mass ${pct(fine)} at 60 s, ${pct(hourly)} at 3600 s`);
    expect(fine).toBeLessThan(1e-4);
    expect(hourly).toBeLessThan(6e-3);
  });

  it('is of second order in the step: half the step, a quarter of the error', () => {
    const massAfterDay = (stepS: number) => {
      const state = Float64Array.of(20, 60);
      for (let s = 0; s < 86400; s += stepS) published.step(state, constantClimate, stepS);
      return state[0]! + state[1]!;
    };
    const finest = massAfterDay(60);
    const ratio = (massAfterDay(7200) - finest) / (massAfterDay(3600) - finest);
    console.log(`two-state lettuce: error at 7200 s over error at 3600 s: ${ratio.toFixed(2)} (4 for the midpoint rule)`);
    expect(Math.abs(ratio - 4)).toBeLessThan(0.6);
  });

  function followError(trajectory: { X0?: number[]; rows: { day: number; Xn: number; Xs: number }[] }, climateAt: (s: number) => ClimateHour, stepS: number): number {
    const state = Float64Array.from(trajectory.X0!);
    let worst = 0;
    let s = 0;
    for (const row of trajectory.rows) {
      for (; s < row.day * 86400; s += stepS) published.step(state, climateAt(stepS === 60 ? s + 30 : s), stepS);
      worst = Math.max(worst, Math.abs((state[0]! + state[1]!) / (row.Xn + row.Xs) - 1));
    }
    return worst;
  }
});

const pct = (share: number) => `${(100 * share).toFixed(4)} %`;

function hourMean(climateAt: (s: number) => ClimateHour) {
  return (s: number): ClimateHour => {
    const minutes = Array.from({ length: 60 }, (_, i) => climateAt(s + 60 * i + 30));
    return { ...climateAt(s + 1800), ppfdUmolM2S: minutes.reduce((sum, minute) => sum + minute.ppfdUmolM2S, 0) / 60 };
  };
}

describe('two-state lettuce: state', () => {
  it('splits the first mass 1 : 3 between sugar and structure, roots included', () => {
    const state = published.createState({ shootDryGPerPlant: 0.17, plantsPerM2: 90 });
    expect(state[0]).toBeCloseTo(0.25 * 0.17 * 90 / 0.85, 12);
    expect(state[1]).toBeCloseTo(0.75 * 0.17 * 90 / 0.85, 12);
    expect(published.shootDryGPerM2(state)).toBeCloseTo(0.17 * 90, 12);
  });

  it('gives leaf area and ground cover of the worked structure: 10 g/m2 -> 0.6375 m2/m2, cover 1 - exp(-0.57375)', () => {
    const state = Float64Array.of(1, 10);
    expect(published.leafAreaIndex(state)).toBeCloseTo(0.6375, 12);
    expect(published.groundCover(state)).toBeCloseTo(0.43659, 5);
  });

  it('keeps mass per plant when plants are moved apart', () => {
    const state = Float64Array.of(20, 150);
    published.respace(state, 60, 30);
    expect([...state]).toEqual([10, 75]);
    expect(published.shootDryGPerM2(state) / 30).toBeCloseTo(0.85 * 170 / 60, 12);
  });

  it('never has negative sugar, however long the night', () => {
    const state = Float64Array.of(0.5, 100);
    for (let h = 0; h < 500; h += 1) published.step(state, { airC: 25, co2Ppm: 400, ppfdUmolM2S: 0 }, 3600);
    expect(state[0]).toBe(0);
    expect(state[1]).toBeGreaterThan(100);
  });

  it('refuses unknown and impossible parameters together', () => {
    const made = createTwoStateLettuce({ c_omega: 7.32e-3, c_zeta: 1, c_tau: Number.NaN });
    expect(made.ok).toBe(false);
    if (!made.ok) expect(made.refusals.map((refusal) => [refusal.code, refusal.path])).toEqual([
      ['key-unknown', 'parameters.c_zeta'], ['value-not-a-number', 'parameters.c_tau'], ['value-out-of-range', 'parameters.c_omega'],
    ]);
  });

  it('advances many members as it steps one', () => {
    const climate = { startUtcHour: 0, utcOffsetH: 0, airC: Float64Array.of(18, 19, 21), co2Ppm: Float64Array.of(420, 600, 800), ppfdUmolM2S: Float64Array.of(0, 200, 500) };
    const members = { members: 2, states: [Float64Array.of(1, 2), Float64Array.of(10, 20)], assimilation: Float64Array.of(1, 0.5), expansion: Float64Array.of(1, 1) };
    published.advanceMembers(members, climate, 0, 3);
    const alone = Float64Array.of(1, 10);
    for (let i = 0; i < 3; i += 1) published.step(alone, { airC: climate.airC[i]!, co2Ppm: climate.co2Ppm[i]!, ppfdUmolM2S: climate.ppfdUmolM2S[i]! }, 3600);
    expect([members.states[0]![0], members.states[1]![0]]).toEqual([...alone]);
    expect(members.states[0]![1]! / members.states[1]![1]!).toBeLessThan(members.states[0]![0]! / members.states[1]![0]!);
  });
});
