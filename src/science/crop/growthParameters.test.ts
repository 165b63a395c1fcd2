import { describe, expect, it } from 'vitest';
import type { Outcome } from '../refusal.ts';
import { createExpolinear } from './expolinear.ts';
import type { GrowthModel, ParameterOverrides } from './growthModel.ts';
import { createReducedTomato } from './reducedTomato.ts';
import { createTwoStateLettuce } from './twoStateLettuce.ts';

type Rows = Readonly<Record<string, readonly [least: number, published: number, most: number]>>;

/** Middle column: Van Henten 1994, Agric. Systems 45:55-72, table of parameters (last row: McCree 1972). Outer columns: what a card may say. */
const LETTUCE: Rows = {
  c_alpha: [0.5, 0.68, 0.8], c_beta: [0.5, 0.8, 1], c_gr_max: [1e-6, 5e-6, 2e-5], c_gamma: [0.1, 1, 5], c_q10_gr: [1, 1.6, 3],
  c_resp_sht: [0, 3.47e-7, 2e-6], c_resp_rt: [0, 1.16e-7, 2e-6], c_q10_resp: [1, 2, 3], c_tau: [0, 0.15, 0.5], c_k: [0.3, 0.9, 1],
  c_lar: [0.01, 75e-3, 0.15], c_omega: [1.6e-3, 1.83e-3, 2.1e-3], c_Gamma: [10, 40, 100], c_q10_Gamma: [1, 2, 3], c_epsilon: [5e-6, 17e-6, 3e-5],
  g_bnd: [0.001, 0.007, 0.05], g_stm: [0.001, 0.005, 0.05], c_car_1: [-1e-4, -1.32e-5, 0], c_car_2: [0, 5.94e-4, 3e-3], c_car_3: [-0.02, -2.64e-3, 0.01],
  structure_at_start: [0.2, 0.75, 1], par_j_per_umol: [0.17, 0.217, 0.24],
};
/** Light use: Jin et al. 2023, indoor mean; full temperature: Carotti et al. 2021; growth and leaf area: own fit to the plants of 2021; the rest common practice. */
const LEAFY: Rows = {
  lue: [0.05, 0.55, 2], r_m: [0.001, 0.0128, 0.05], t_base: [-5, 4, 20], t_full: [10, 24, 40], light_days: [0.25, 1, 10], sla: [0.005, 0.035, 0.1], k: [0.3, 0.7, 1],
};
/** Jones, Kenig & Vallejos 1999, Trans. ASAE 42:255-265, and Jones et al. 1991 (D, K, m), from public transcriptions; T_fruit and roots from memory. */
const TOMATO: Rows = {
  N_m: [0.1, 0.5, 1.5], delta: [0.005, 0.038, 0.2], beta: [0.05, 0.169, 0.5], N_b: [0, 16, 40], LAI_max: [1, 4, 8], E: [0.4, 0.717, 0.9],
  Q10: [1, 1.4, 3], r_m: [0, 0.016, 0.05], D: [2, 2.593, 3], K: [0.3, 0.58, 1], m: [0, 0.1, 0.3], Q_e: [0.02, 0.0645, 0.12], tau: [0.02, 0.0693, 0.15],
  p_1: [0, 2, 10], V_max: [2, 8, 20], alpha_F: [0.3, 0.8, 1], nu: [0.02, 0.135, 0.6], N_FF: [5, 22, 40], kappa_F: [0, 5, 30],
  T_crit: [20, 24.4, 35], hot_loss: [0, 0.154, 0.5], T_fruit: [0, 8, 15], root_start: [0, 0.18, 0.5], root_per_node: [0, 0.0032, 0.02], N_start: [0, 6, 20],
};

const MODELS: readonly [string, (overrides?: ParameterOverrides) => Outcome<GrowthModel>, Rows][] = [
  ['two-state lettuce', createTwoStateLettuce, LETTUCE], ['expolinear', createExpolinear, LEAFY], ['reduced-state tomato', createReducedTomato, TOMATO],
];

describe.each(MODELS)('parameters of %s', (name, create, rows) => {
  const codes = (overrides: ParameterOverrides) => {
    const made = create(overrides);
    return made.ok ? [] : made.refusals.map(({ code, path }) => `${code} ${path}`);
  };

  it('stand at their published values where a card says nothing', () => {
    const made = create();
    const values = made.ok ? Object.fromEntries(made.value.parameters.map(({ symbol }, i) => [symbol, made.value.values[i]])) : {};
    expect(values).toEqual(Object.fromEntries(Object.entries(rows).map(([symbol, [, published]]) => [symbol, published])));
    console.log(`${name}: ${Object.keys(rows).length} parameters as in their sources`);
  });

  it('may go up to their limits and no further', () => {
    for (const [symbol, [least, , most]] of Object.entries(rows)) {
      const room = (most - least) / 1000;
      for (const value of [least, most]) expect(codes({ [symbol]: value }), `${symbol} ${value}`).toEqual([]);
      for (const value of [least - room, most + room]) expect(codes({ [symbol]: value }), `${symbol} ${value}`).toEqual([`value-out-of-range parameters.${symbol}`]);
    }
  });
});

describe('parameter sets in circulation under the name of Van Henten', () => {
  // Two public copies of the model (reference notes): one can be told apart by its density of carbon dioxide, the other by its boundary layer.
  const pathsOf = (overrides: ParameterOverrides) => {
    const made = createTwoStateLettuce(overrides);
    return made.ok ? [] : made.refusals.map(({ path }) => path);
  };
  it('are refused where their units are not these', () => {
    expect(pathsOf({ c_omega: 7.32e-3, g_bnd: 0.004, g_stm: 0.02, c_tau: 0.07 })).toEqual(['parameters.c_omega']);
    expect(pathsOf({ c_gamma: 1.198, g_bnd: 7.2e-4 })).toEqual(['parameters.g_bnd']);
  });
});

describe('where the models may be used', () => {
  const validOf = (made: Outcome<GrowthModel>) => {
    if (!made.ok) throw new Error('defaults refused');
    const { airC, co2Ppm, ppfdUmolM2S, plantsPerM2 } = made.value.valid;
    return { airC, co2Ppm, ppfdUmolM2S, plantsPerM2 };
  };
  it('is stated: carboxylation from 5 to 40 C (Van Henten 1994), tomato from 9 to 35 C (tables of Jones et al. 1991); the rest common practice', () => {
    expect(validOf(createTwoStateLettuce())).toEqual({ airC: [5, 40], co2Ppm: [200, 2000], ppfdUmolM2S: [0, 1500], plantsPerM2: [5, 400] });
    expect(validOf(createExpolinear())).toEqual({ airC: [0, 35], co2Ppm: [300, 1500], ppfdUmolM2S: [0, 1200], plantsPerM2: [1, 3000] });
    expect(validOf(createReducedTomato())).toEqual({ airC: [9, 35], co2Ppm: [250, 500], ppfdUmolM2S: [0, 2000], plantsPerM2: [1, 6] });
  });
});
