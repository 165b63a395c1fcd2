/** Parameters of the two-state lettuce model, exactly as in Van Henten 1994; other sets circulate under his name and are not these. */
import type { ParameterTable } from './growthModel.ts';

const VAN_HENTEN = 'Van Henten 1994, Agric. Systems 45:55-72, table of parameters';

export const TWO_STATE_LETTUCE_PARAMETERS: ParameterTable = [
  { symbol: 'c_alpha', name: 'carbon dioxide to sugar', unit: '1', default: 0.68, min: 0.5, max: 0.8, meaning: 'Sugar made per carbon dioxide assimilated, g/g (30/44)', source: VAN_HENTEN },
  { symbol: 'c_beta', name: 'yield of growth', unit: '1', default: 0.8, min: 0.5, max: 1, meaning: 'Structure made per sugar used, the rest is respired and synthesised away', source: VAN_HENTEN },
  { symbol: 'c_gr_max', name: 'saturation growth rate', unit: 's-1', default: 5e-6, min: 1e-6, max: 2e-5, meaning: 'Relative growth of structure at 20 C where sugar is plentiful', source: VAN_HENTEN },
  { symbol: 'c_gamma', name: 'sugar saturation', unit: '1', default: 1, min: 0.1, max: 5, meaning: 'Ratio of sugar to structure at half of the saturation growth rate', source: VAN_HENTEN },
  { symbol: 'c_q10_gr', name: 'growth per 10 K', unit: '1', default: 1.6, min: 1, max: 3, meaning: 'Factor on growth for 10 K more', source: VAN_HENTEN },
  { symbol: 'c_resp_sht', name: 'shoot maintenance', unit: 's-1', default: 3.47e-7, min: 0, max: 2e-6, meaning: 'Sugar used to maintain shoot structure at 25 C, g/g/s', source: VAN_HENTEN },
  { symbol: 'c_resp_rt', name: 'root maintenance', unit: 's-1', default: 1.16e-7, min: 0, max: 2e-6, meaning: 'Sugar used to maintain root structure at 25 C, g/g/s', source: VAN_HENTEN },
  { symbol: 'c_q10_resp', name: 'maintenance per 10 K', unit: '1', default: 2, min: 1, max: 3, meaning: 'Factor on maintenance for 10 K more', source: VAN_HENTEN },
  { symbol: 'c_tau', name: 'root share', unit: '1', default: 0.15, min: 0, max: 0.5, meaning: 'Roots as a share of the dry mass of the plant; 0.15 is for soil', source: VAN_HENTEN },
  { symbol: 'c_k', name: 'light extinction', unit: '1', default: 0.9, min: 0.3, max: 1, meaning: 'Extinction of photosynthetic light per unit of leaf area; 0.9 for flat, 0.3 for upright leaves', source: VAN_HENTEN },
  { symbol: 'c_lar', name: 'leaf area ratio', unit: 'm2/g', default: 75e-3, min: 0.01, max: 0.15, meaning: 'Leaf area per structural dry mass of the shoot', source: VAN_HENTEN },
  { symbol: 'c_omega', name: 'density of carbon dioxide', unit: 'g/m3/[ppm]', default: 1.83e-3, min: 1.6e-3, max: 2.1e-3, meaning: 'Grams of carbon dioxide per cubic metre and ppm, at 15 C', source: VAN_HENTEN },
  { symbol: 'c_Gamma', name: 'carbon dioxide compensation', unit: '[ppm]', default: 40, min: 10, max: 100, meaning: 'Carbon dioxide at which assimilation equals photorespiration, at 20 C', source: VAN_HENTEN },
  { symbol: 'c_q10_Gamma', name: 'compensation per 10 K', unit: '1', default: 2, min: 1, max: 3, meaning: 'Factor on the compensation point for 10 K more', source: VAN_HENTEN },
  { symbol: 'c_epsilon', name: 'light use at high carbon dioxide', unit: 'g/J', default: 17e-6, min: 5e-6, max: 3e-5, meaning: 'Carbon dioxide assimilated per joule of photosynthetic light', source: VAN_HENTEN },
  { symbol: 'g_bnd', name: 'boundary layer conductance', unit: 'm/s', default: 0.007, min: 0.001, max: 0.05, meaning: 'Of carbon dioxide, leaf to air', source: VAN_HENTEN },
  { symbol: 'g_stm', name: 'stomatal conductance', unit: 'm/s', default: 0.005, min: 0.001, max: 0.05, meaning: 'Of carbon dioxide', source: VAN_HENTEN },
  { symbol: 'c_car_1', name: 'carboxylation, square term', unit: 'm/s/K2', default: -1.32e-5, min: -1e-4, max: 0, meaning: 'Carboxylation conductance: c_car_1 T2 + c_car_2 T + c_car_3, 5 to 40 C', source: VAN_HENTEN },
  { symbol: 'c_car_2', name: 'carboxylation, linear term', unit: 'm/s/K', default: 5.94e-4, min: 0, max: 3e-3, meaning: 'Carboxylation conductance, linear term', source: VAN_HENTEN },
  { symbol: 'c_car_3', name: 'carboxylation, constant term', unit: 'm/s', default: -2.64e-3, min: -0.02, max: 0.01, meaning: 'Carboxylation conductance, constant term', source: VAN_HENTEN },
  { symbol: 'structure_at_start', name: 'structure at the start', unit: '1', default: 0.75, min: 0.2, max: 1, meaning: 'Share of the first dry mass that is structure', source: VAN_HENTEN },
  { symbol: 'par_j_per_umol', name: 'energy of the light', unit: 'J/umol', default: 0.217, min: 0.17, max: 0.24, meaning: 'Photosynthetic energy per photon: sun and sky 0.217 (1/4.6), red and blue lamps 0.19 to 0.20', source: 'McCree 1972, Agric. Meteorol. 10:443-453 (from memory, unverified)' },
];
