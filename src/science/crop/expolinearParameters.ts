/** Parameters of the expolinear growth model with degree-days. */
import type { ParameterTable } from './growthModel.ts';

const OWN_FIT_2021 = 'Own fit to 391 lettuce plants of four cultivars, third Autonomous Greenhouse Challenge 2021 (4TU doi 10.4121/15023088): 0.19 to 0.23 per day, taken at 20 C';

export const EXPOLINEAR_PARAMETERS: ParameterTable = [
  { symbol: 'lue', name: 'light use efficiency', unit: 'g/mol', default: 0.55, min: 0.05, max: 2, meaning: 'Dry shoot mass made per mole of photosynthetic photons falling on a closed canopy', source: 'Jin et al. 2023, Food Energy Secur. 12: mean of 53 indoor studies of lettuce 0.55 (13 in greenhouses 0.39, 8 in the field 0.23), on incident light' },
  { symbol: 'r_m', name: 'relative growth', unit: 'Cel-1.d-1', default: 0.0128, min: 0.001, max: 0.05, meaning: 'Relative growth rate of a young, unshaded plant per degree-day', source: OWN_FIT_2021 },
  { symbol: 't_base', name: 'base temperature', unit: 'Cel', default: 4, min: -5, max: 20, meaning: 'Below this temperature there is no growth', source: 'common practice, no source' },
  { symbol: 't_full', name: 'temperature of full growth', unit: 'Cel', default: 24, min: 10, max: 40, meaning: 'Degree-days do not rise faster above this temperature', source: 'Carotti et al. 2021, Front. Plant Sci. 11:592171: best light use at 24 C air' },
  { symbol: 'light_days', name: 'memory for light', unit: 'd', default: 1, min: 0.25, max: 10, meaning: 'The growth of a closed canopy follows the light of about so many days', source: 'own choice: the model is stated for days, this lets it be stepped by hours' },
  { symbol: 'sla', name: 'leaf area ratio', unit: 'm2/g', default: 0.035, min: 0.005, max: 0.1, meaning: 'Leaf area per dry mass of the shoot', source: 'Own fit to the same 2021 plants: 0.026 to 0.047 m2/g from the second week on' },
  { symbol: 'k', name: 'light extinction', unit: '1', default: 0.7, min: 0.3, max: 1, meaning: 'Extinction of light per unit of leaf area', source: 'leafy crops other than flat lettuce 0.5 to 0.8: from memory, unverified' },
];
