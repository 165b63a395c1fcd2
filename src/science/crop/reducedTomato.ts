/** Reduced-state tomato (Jones, Kenig & Vallejos 1999): nodes, leaf area, plant, fruit and ripe fruit, stepped by the day. */
import type { Outcome } from '../refusal.ts';
import { accepted } from '../refusal.ts';
import type { ClimateHour, GrowthModel, HourlyClimate, MemberColumns, ParameterOverrides, StateVariable, ValidRanges } from './growthModel.ts';
import { settleParameters } from './growthParameters.ts';
import { REDUCED_TOMATO_PARAMETERS } from './reducedTomatoParameters.ts';
import type { TomatoConstants } from './reducedTomatoRates.ts';
import { fruitGrowth, grossSugar, leafAreaAt, leafAreaPerNode, maintenanceSugar, nodeRateShare, plantGrowth, ripening, rootShare } from './reducedTomatoRates.ts';

const SOURCE = 'J.W. Jones, A. Kenig & C.E. Vallejos 1999, Reduced state-variable tomato growth model, Trans. ASAE 42:255-265 (read in public transcriptions)';
const VALID: ValidRanges = {
  airC: [9, 35], co2Ppm: [250, 500], ppfdUmolM2S: [0, 2000], plantsPerM2: [1, 6],
  source: 'temperature tables of Jones et al. 1991; carbon dioxide acts as a straight line, which is too steep above about 500 ppm',
};
const DAY_S = 86400;

/** The five states of the paper; then what the running day has gathered, because growth is settled once a day; then the density. */
const VARIABLES: readonly StateVariable[] = [
  { name: 'nodes', unit: '1', corrected: false }, { name: 'leaf area index', unit: 'm2/m2', corrected: true },
  { name: 'plant', unit: 'g/m2', corrected: true }, { name: 'fruit', unit: 'g/m2', corrected: true }, { name: 'ripe fruit', unit: 'g/m2', corrected: true },
  { name: 'sugar of the day', unit: 'g/m2', corrected: false }, { name: 'nodes of the day', unit: '1', corrected: false },
  { name: 'warmth of the day', unit: 'Cel.s', corrected: false }, { name: 'warmth in the light', unit: 'Cel.s', corrected: false },
  { name: 'time in the light', unit: 's', corrected: false }, { name: 'time of the day', unit: 's', corrected: false }, { name: 'plants', unit: '/m2', corrected: false },
];
const At = { nodes: 0, leafArea: 1, plant: 2, fruit: 3, ripe: 4, sugar: 5, newNodes: 6, warmth: 7, litWarmth: 8, litS: 9, dayS: 10, plantsPerM2: 11 } as const;

/** Builds the model. Shoot mass is the plant above ground, fruit included; ripe fruit is given apart. Steps must divide a day. */
export function createReducedTomato(overrides: ParameterOverrides = {}): Outcome<GrowthModel> {
  const settled = settleParameters(REDUCED_TOMATO_PARAMETERS, overrides);
  if (!settled.ok) return settled;
  const constants = Object.fromEntries(REDUCED_TOMATO_PARAMETERS.map((parameter, i) => [parameter.symbol, settled.value[i]!]));
  return accepted(buildModel(settled.value, constants));
}

function buildModel(values: Float64Array, c: TomatoConstants): GrowthModel {
  return {
    id: 'reduced-tomato', title: 'Reduced-state tomato', source: SOURCE,
    parameters: REDUCED_TOMATO_PARAMETERS, values, valid: VALID, disturbsExpansion: false, stateVariables: VARIABLES,
    createState: ({ shootDryGPerPlant, plantsPerM2 }) => {
      const state = new Float64Array(VARIABLES.length);
      state[At.nodes] = c['N_start']!;
      state[At.leafArea] = leafAreaAt(c, c['N_start']!, plantsPerM2);
      state[At.plant] = shootDryGPerPlant * plantsPerM2;
      state[At.plantsPerM2] = plantsPerM2;
      return state;
    },
    step: (state, hour, stepS) => stepState(c, state, hour, stepS, 1, 1),
    shootDryGPerM2: (state) => state[At.plant]!,
    ripeFruitDryGPerM2: (state) => state[At.ripe]!,
    leafAreaIndex: (state) => state[At.leafArea]!,
    groundCover: (state) => 1 - Math.exp(-c['K']! * state[At.leafArea]!),
    respace: (state, from, to) => {
      for (const i of [At.leafArea, At.plant, At.fruit, At.ripe, At.sugar]) state[i] = state[i]! * to / from;
      state[At.plantsPerM2] = to;
    },
    advanceMembers: (members, climate, fromHour, toHour) => advance(c, members, climate, fromHour, toHour),
  };
}

/** Gathers one step; settles the day when it is full. */
function stepState(c: TomatoConstants, state: Float64Array, hour: ClimateHour, stepS: number, assimilation: number, expansion: number): void {
  const days = stepS / DAY_S;
  const lit = hour.ppfdUmolM2S > 0;
  const net = assimilation * grossSugar(c, state[At.leafArea]!, hour) - maintenanceSugar(c, state[At.plant]!, state[At.ripe]!, hour.airC);
  state[At.sugar] = state[At.sugar]! + days * net;
  state[At.newNodes] = state[At.newNodes]! + days * c['N_m']! * nodeRateShare(hour.airC);
  state[At.warmth] = state[At.warmth]! + stepS * hour.airC;
  state[At.litWarmth] = state[At.litWarmth]! + (lit ? stepS * hour.airC : 0);
  state[At.litS] = state[At.litS]! + (lit ? stepS : 0);
  state[At.dayS] = state[At.dayS]! + stepS;
  if (state[At.dayS]! >= DAY_S - 1e-6) settleDay(c, state, expansion);
}

/** One daily step of J99 from what the day gathered. */
function settleDay(c: TomatoConstants, state: Float64Array, expansion: number): void {
  const nodes = state[At.nodes]!;
  const plantsPerM2 = state[At.plantsPerM2]!;
  const newNodes = state[At.newNodes]!;
  const meanC = state[At.warmth]! / state[At.dayS]!;
  const daytimeC = state[At.litS]! > 0 ? state[At.litWarmth]! / state[At.litS]! : meanC;
  const leavesAreKept = state[At.leafArea]! >= c['LAI_max']!;
  const netGrowth = c['E']! * state[At.sugar]! * (1 - rootShare(c, nodes));
  const fruit = Math.max(0, fruitGrowth(c, netGrowth, nodes, meanC, daytimeC));
  const ripe = nodes > c['N_FF']! + c['kappa_F']! ? ripening(meanC) * Math.max(0, state[At.fruit]! - state[At.ripe]!) : 0;
  const leafArea = leavesAreKept ? 0 : expansion * leafAreaPerNode(c, nodes, plantsPerM2) * newNodes;
  state[At.plant] = Math.max(0, state[At.plant]! + plantGrowth(c, netGrowth, fruit, newNodes, plantsPerM2, leavesAreKept));
  state[At.nodes] = nodes + newNodes;
  state[At.leafArea] = Math.max(state[At.leafArea]!, Math.min(c['LAI_max']!, state[At.leafArea]! + leafArea));
  state[At.fruit] = state[At.fruit]! + fruit;
  state[At.ripe] = state[At.ripe]! + ripe;
  state.fill(0, At.sugar, At.plantsPerM2);
}

function advance(c: TomatoConstants, members: MemberColumns, climate: HourlyClimate, fromHour: number, toHour: number): void {
  const state = new Float64Array(VARIABLES.length);
  for (let m = 0; m < members.members; m += 1) {
    for (let s = 0; s < state.length; s += 1) state[s] = members.states[s]![m]!;
    for (let i = fromHour; i < toHour; i += 1) {
      const hour = { airC: climate.airC[i]!, co2Ppm: climate.co2Ppm[i]!, ppfdUmolM2S: climate.ppfdUmolM2S[i]! };
      stepState(c, state, hour, 3600, members.assimilation[m]!, members.expansion[m]!);
    }
    for (let s = 0; s < state.length; s += 1) members.states[s]![m] = state[s]!;
  }
}
