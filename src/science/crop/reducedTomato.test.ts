import { describe, expect, it } from 'vitest';
import type { GrowthModel } from './growthModel.ts';
import { createReducedTomato } from './reducedTomato.ts';
import { REDUCED_TOMATO_PARAMETERS } from './reducedTomatoParameters.ts';
import {
  fruitGrowth, grossSugar, leafAreaAt, leafAreaPerNode, maintenanceSugar, nodeRateShare, photosynthesisShare, plantGrowth, ripening, rootShare,
} from './reducedTomatoRates.ts';

const c = Object.fromEntries(REDUCED_TOMATO_PARAMETERS.map((parameter) => [parameter.symbol, parameter.default]));

function build(): GrowthModel {
  const made = createReducedTomato();
  if (!made.ok) throw new Error('defaults refused');
  return made.value;
}

describe('reduced-state tomato: hand-worked equations (Jones et al. 1999; Jones et al. 1991 for temperature and light)', () => {
  it('node rate by temperature', () => {
    console.log('reduced-state tomato: checked against hand-worked steps of the equations of Jones, Kenig & Vallejos 1999');
    expect([9, 50, 28].map(nodeRateShare)).toEqual([0, 0, 1]);
    expect(nodeRateShare(20)).toBeCloseTo(0.7752, 10);
    expect(nodeRateShare(12)).toBeCloseTo(0.5504, 10);
    expect(nodeRateShare(10.5)).toBeCloseTo(0.2752, 10);
    expect(nodeRateShare(38)).toBeCloseTo(0.545, 10);
  });

  it('photosynthesis by temperature', () => {
    expect([0, 35, 12, 20, 28].map(photosynthesisShare)).toEqual([0, 0, 1, 1, 1]);
    expect(photosynthesisShare(4.5)).toBeCloseTo(0.335, 10);
    expect(photosynthesisShare(10.5)).toBeCloseTo(0.835, 10);
    expect(photosynthesisShare(31.5)).toBeCloseTo(0.5, 10);
  });

  it('changes from line to line at 9, 12, 28, 35 C (Jones et al. 1991, table 3): values half a degree beyond each', () => {
    expect(nodeRateShare(9.5)).toBeCloseTo(0.5504 * 0.5 / 3, 12);
    expect(nodeRateShare(12.5)).toBeCloseTo(0.56445, 12);
    expect(nodeRateShare(28.7)).toBeCloseTo(0.96815, 12);
    expect(photosynthesisShare(9.5)).toBeCloseTo(0.725, 12);
    expect(photosynthesisShare(12.5)).toBe(1);
    expect(photosynthesisShare(28.7)).toBeCloseTo(0.9, 12);
    expect(photosynthesisShare(35.5)).toBe(0);
    expect([9.5, 28.5, 35, 35.5].map(ripening)).toEqual([expect.closeTo(0.00115, 12), 0.032, 0.032, 0]);
  });

  it('photosynthesis of a canopy: LAI 2, 400 umol, 350 ppm, 20 C: 35.50 g sugar/m2/d; none in the dark', () => {
    expect(grossSugar(c, 2, { airC: 20, co2Ppm: 350, ppfdUmolM2S: 400 })).toBeCloseTo(35.50245087989221, 10);
    expect(grossSugar(c, 2, { airC: 20, co2Ppm: 350, ppfdUmolM2S: 0 })).toBe(0);
  });

  it('maintenance of 100 g without ripe fruit at 25 C: 1.8931; ripe fruit needs none', () => {
    expect(maintenanceSugar(c, 100, 0, 25)).toBeCloseTo(1.8931455305918772, 12);
    expect(maintenanceSugar(c, 140, 40, 20)).toBeCloseTo(1.6, 12);
  });

  it('roots: 14.8 % at 10 nodes, never below 2 %', () => {
    expect(rootShare(c, 10)).toBeCloseTo(0.148, 12);
    expect(rootShare(c, 60)).toBe(0.02);
  });

  it('leaf area: 0.03136 m2/m2 a node at 10 nodes and 3.1 plants/m2; its integral at 6 nodes 0.1180', () => {
    expect(leafAreaPerNode(c, 10, 3.1)).toBeCloseTo(0.03135809781513045, 12);
    expect(leafAreaAt(c, 6, 3.1)).toBeCloseTo(0.11803506145124587, 12);
    expect((leafAreaAt(c, 10.001, 3.1) - leafAreaAt(c, 9.999, 3.1)) / 0.002).toBeCloseTo(leafAreaPerNode(c, 10, 3.1), 8);
  });

  it('fruit: nothing before the first, then by nodes, cold and heat', () => {
    expect(fruitGrowth(c, 10, 22, 20, 20)).toBe(0);
    expect(fruitGrowth(c, 10, 26, 18, 20)).toBeCloseTo(2.0862587381300517, 12);
    expect(fruitGrowth(c, 10, 26, 25, 26.4)).toBeCloseTo(2.309905674857593, 10);
    expect(fruitGrowth(c, 10, 26, 25, 40) / fruitGrowth(c, 10, 26, 25, 20)).toBeCloseTo(0.09, 12);
  });

  it('plant: by supply, by what can be taken, and less leaves taken off once leaf area is kept', () => {
    expect(plantGrowth(c, 5, 3, 0.4, 3, false)).toBe(5);
    expect(plantGrowth(c, 50, 3, 0.4, 3, false)).toBeCloseTo(3 + 8 * 3 * 0.4, 12);
    expect(plantGrowth(c, 5, 3, 0.4, 3, true)).toBeCloseTo(5 - 2 * 3 * 0.4, 12);
    expect(plantGrowth(c, 50, 3, 0.4, 3, true)).toBeCloseTo(3 + 6 * 3 * 0.4, 12);
  });

  it('ripening: 0.019 a day at 20 C, 0.032 when hot, none in the cold', () => {
    expect(ripening(20)).toBeCloseTo(0.019, 12);
    expect([9, 30, 36].map(ripening)).toEqual([0, 0.032, 0]);
  });
});

describe('reduced-state tomato: the state', () => {
  const day = (state: Float64Array, model: GrowthModel) => {
    for (let h = 0; h < 24; h += 1) model.step(state, { airC: h < 12 ? 22 : 18, co2Ppm: 350, ppfdUmolM2S: h < 12 ? 500 : 0 }, 3600);
  };

  it('makes the hand-worked day: 26 nodes, LAI 3, 300 g/m2, 60 g fruit -> 13.04 g (as much as can be taken), 3.43 g of it fruit', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 1, plantsPerM2: 3.1 });
    state.set([26, 3, 300, 60, 0]);
    day(state, model);
    const expected = [26.3876, 3.0385466672985544, 313.0411101495126, 63.428630149512564, 0];
    expected.forEach((value, s) => expect(state[s]).toBeCloseTo(value, 8));
    expect(Array.from(state.subarray(5, 11))).toEqual([0, 0, 0, 0, 0, 0]);
  });

  it('ripens fruit from 27 nodes on, and keeps the leaf area once it is reached', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 1, plantsPerM2: 3.1 });
    state.set([27.5, 4, 300, 60, 10]);
    day(state, model);
    expect(model.ripeFruitDryGPerM2!(state)).toBeCloseTo(10 + 0.019 * 50, 10);
    expect(model.leafAreaIndex(state)).toBe(4);
    expect(model.groundCover(state)).toBeCloseTo(1 - Math.exp(-2.32), 12);
  });

  it('loses fruit by the temperature of the lit hours: at 30 C in the light 1 - 0.154 x 5.6 = 0.1376 is left, whatever the night', () => {
    const fruitOf = (hotLoss: number) => {
      const made = createReducedTomato({ hot_loss: hotLoss });
      if (!made.ok) throw new Error('refused');
      const state = made.value.createState({ shootDryGPerPlant: 1, plantsPerM2: 3.1 });
      state.set([26, 3, 300, 60, 0]);
      for (let h = 0; h < 24; h += 1) made.value.step(state, { airC: h < 10 ? 30 : 18, co2Ppm: 350, ppfdUmolM2S: h < 10 ? 500 : 0 }, 3600);
      return state[3]! - 60;
    };
    expect(fruitOf(0.154) / fruitOf(0)).toBeCloseTo(0.1376, 10);
  });

  it('starts with six nodes; moving plants keeps mass per plant and nodes', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 2, plantsPerM2: 3 });
    expect(Array.from(state.subarray(0, 4))).toEqual([6, leafAreaAt(c, 6, 3), 6, 0]);
    model.respace(state, 3, 1.5);
    expect([state[0], model.shootDryGPerM2(state)]).toEqual([6, 3]);
    expect(model.leafAreaIndex(state)).toBeCloseTo(leafAreaAt(c, 6, 1.5), 12);
  });

  it('bears in 120 days of a bright, warm house: between 0.5 and 2.5 kg dry matter per m2, half of it fruit or more', () => {
    const model = build();
    const state = model.createState({ shootDryGPerPlant: 2, plantsPerM2: 3.1 });
    for (let d = 0; d < 120; d += 1) day(state, model);
    expect(model.shootDryGPerM2(state)).toBeGreaterThan(500);
    expect(model.shootDryGPerM2(state)).toBeLessThan(2500);
    expect(state[3]! / model.shootDryGPerM2(state)).toBeGreaterThan(0.4);
    expect(state[4]!).toBeLessThan(state[3]!);
  });

  it('advances members as it steps one', () => {
    const model = build();
    const climate = { startUtcHour: 0, utcOffsetH: 0, airC: new Float64Array(48).fill(20), co2Ppm: new Float64Array(48).fill(400), ppfdUmolM2S: Float64Array.from({ length: 48 }, (_, i) => (i % 24 < 14 ? 400 : 0)) };
    const start = model.createState({ shootDryGPerPlant: 5, plantsPerM2: 3 });
    const members = { members: 2, states: Array.from(start, (value) => Float64Array.of(value, value)), assimilation: Float64Array.of(1, 0.5), expansion: Float64Array.of(1, 0.5) };
    model.advanceMembers(members, climate, 0, 48);
    for (let i = 0; i < 48; i += 1) model.step(start, { airC: 20, co2Ppm: 400, ppfdUmolM2S: climate.ppfdUmolM2S[i]! }, 3600);
    expect(members.states.map((column) => column[0])).toEqual([...start]);
    expect(members.states[2]![1]).toBeLessThan(start[2]!);
    expect(members.states[1]![1]).toBeLessThan(start[1]!);
  });
});
