/** The two-state lettuce model of Van Henten 1994, as published: sugar and structure per square metre. */
import type { Outcome } from '../refusal.ts';
import { accepted } from '../refusal.ts';
import { fallingExp } from './fallingExp.ts';
import type { ClimateHour, GrowthModel, HourlyClimate, MemberColumns, ParameterOverrides, ValidRanges } from './growthModel.ts';
import { settleParameters } from './growthParameters.ts';
import { TWO_STATE_LETTUCE_PARAMETERS } from './twoStateLettuceParameters.ts';
import type { TwoStateConstants } from './twoStateLettuceRates.ts';
import { hourOf, readTwoStateConstants } from './twoStateLettuceRates.ts';

const SOURCE = 'E.J. van Henten 1994, Validation of a dynamic lettuce growth model for greenhouse climate control, Agric. Systems 45:55-72';

/** Temperatures of the carboxylation parabola; the other ranges are what the model has been tried in, with room around it. */
const VALID: ValidRanges = {
  airC: [5, 40], co2Ppm: [200, 2000], ppfdUmolM2S: [0, 1500], plantsPerM2: [5, 400],
  source: 'Van Henten 1994 for temperature; tried at 18 plants/m2 there; the rest common practice, no source',
};

/**
 * Builds the model with parameters settled.
 * Shoot mass is (1 - c_tau) of all dry mass: c_tau is the roots' share of the plant.
 * Steps use the midpoint rule (second order) with one exponential; the error at hourly steps is measured in the tests.
 */
export function createTwoStateLettuce(overrides: ParameterOverrides = {}): Outcome<GrowthModel> {
  const settled = settleParameters(TWO_STATE_LETTUCE_PARAMETERS, overrides);
  if (!settled.ok) return settled;
  return accepted(buildModel(settled.value, readTwoStateConstants(TWO_STATE_LETTUCE_PARAMETERS, settled.value)));
}

function buildModel(values: Float64Array, c: TwoStateConstants): GrowthModel {
  const shootShare = 1 - c.cTau;
  return {
    id: 'two-state-lettuce', title: 'Two-state lettuce', source: SOURCE,
    parameters: TWO_STATE_LETTUCE_PARAMETERS, values, valid: VALID, disturbsExpansion: false,
    stateVariables: [{ name: 'sugar', unit: 'g/m2', corrected: true }, { name: 'structure', unit: 'g/m2', corrected: true }],
    createState: ({ shootDryGPerPlant, plantsPerM2 }) => {
      const dryGPerM2 = shootDryGPerPlant * plantsPerM2 / shootShare;
      return Float64Array.of((1 - c.structureAtStart) * dryGPerM2, c.structureAtStart * dryGPerM2);
    },
    step: (state, hour, stepS) => stepState(c, state, hour, stepS),
    shootDryGPerM2: (state) => shootShare * (state[0]! + state[1]!),
    leafAreaIndex: (state) => shootShare * c.cLar * state[1]!,
    groundCover: (state) => 1 - Math.exp(-c.cK * c.cLar * shootShare * state[1]!),
    respace: (state, from, to) => {
      state[0] = state[0]! * to / from;
      state[1] = state[1]! * to / from;
    },
    advanceMembers: (members, climate, fromHour, toHour) => advance(c, members, climate, fromHour, toHour),
  };
}

const single: MemberColumns = {
  members: 1, states: [new Float64Array(1), new Float64Array(1)], assimilation: Float64Array.of(1), expansion: Float64Array.of(1),
};

function stepState(c: TwoStateConstants, state: Float64Array, hour: ClimateHour, stepS: number): void {
  const [sugar, structure] = single.states as [Float64Array, Float64Array];
  sugar[0] = state[0]!;
  structure[0] = state[1]!;
  moveMembers(c, single, hour, stepS);
  state[0] = sugar[0]!;
  state[1] = structure[0]!;
}

function advance(c: TwoStateConstants, members: MemberColumns, climate: HourlyClimate, fromHour: number, toHour: number): void {
  for (let i = fromHour; i < toHour; i += 1) {
    moveMembers(c, members, { airC: climate.airC[i]!, co2Ppm: climate.co2Ppm[i]!, ppfdUmolM2S: climate.ppfdUmolM2S[i]! }, 3600);
  }
}

/**
 * One midpoint step of all members. The hot loop: no allocation, one exponential a member, none in the dark.
 * Sugar never falls below zero: in weeks of darkness the published equations would go on to negative sugar.
 */
function moveMembers(c: TwoStateConstants, members: MemberColumns, climateHour: ClimateHour, stepS: number): void {
  const { photMax, grMax, resp } = hourOf(c, climateHour);
  const xNs = members.states[0]!;
  const xSs = members.states[1]!;
  const { members: count, assimilation, expansion } = members;
  const h = stepS;
  const half = 0.5 * stepS;
  const extinction = c.cK * c.cLar * (1 - c.cTau);
  const phot = c.cAlpha * photMax;
  const perGrowth = 1 / c.cBeta;
  const cGamma = c.cGamma;
  for (let m = 0; m < count; m += 1) {
    const xN = xNs[m]!;
    const xS = xSs[m]!;
    const gr = grMax * expansion[m]!;
    const rGr = gr * xN / (cGamma * xS + xN);
    const xSMid = xS + half * rGr * xS;
    // Cover changes by less than 1 % in half an hour: its middle value serves both stages.
    const made = phot > 0 ? phot * assimilation[m]! * (1 - fallingExp(extinction * xSMid)) : 0;
    const xNMid = Math.max(0, xN + half * (made - (resp + perGrowth * rGr) * xS));
    const grown = gr * xNMid / (cGamma * xSMid + xNMid) * xSMid;
    xNs[m] = Math.max(0, xN + h * (made - resp * xSMid - perGrowth * grown));
    xSs[m] = xS + h * grown;
  }
}
