/** Expolinear growth (Goudriaan & Monteith 1990) on degree-days: first exponential, then as fast as the light allows. */
import type { Outcome } from '../refusal.ts';
import { accepted } from '../refusal.ts';
import { EXPOLINEAR_PARAMETERS } from './expolinearParameters.ts';
import { fallingExp } from './fallingExp.ts';
import type { ClimateHour, GrowthModel, HourlyClimate, MemberColumns, ParameterOverrides, ValidRanges } from './growthModel.ts';
import { settleParameters, valueOf } from './growthParameters.ts';

const SOURCE = 'J. Goudriaan & J.L. Monteith 1990, A mathematical function for crop growth based on light interception and leaf area expansion, Ann. Bot. 66:695-701 (from memory, unverified)';
const VALID: ValidRanges = {
  airC: [0, 35], co2Ppm: [300, 1500], ppfdUmolM2S: [0, 1200], plantsPerM2: [1, 3000],
  source: 'common practice, no source; carbon dioxide does not act in this model',
};

/** Light that a new state remembers, umol/m2/s: 12 mol a day. It does not act until the canopy begins to close. */
const LIGHT_AT_START = 12e6 / 86400;
const DAY_S = 86400;

interface ExpolinearConstants {
  readonly lue: number; readonly rM: number; readonly tBase: number; readonly tFull: number; readonly lightS: number;
  readonly sla: number; readonly k: number;
}

/** w = (C_m/R_m) ln(1 + exp(R_m (t - t_b))): dry mass at time t, in the units of C_m. */
export function expolinearMass(cM: number, rM: number, t: number, tB: number): number {
  return cM / rM * Math.log1p(Math.exp(rM * (t - tB)));
}

/** The mass after a time t in which C_m and R_m stay: the closed form carried on from mass w, so that any step is exact. */
export function growExpolinear(w: number, cM: number, rM: number, t: number): number {
  if (cM <= 0 || rM <= 0) return w;
  const x = rM * w / cM;
  // ln(1 + (e^x - 1) e^(R t)), written so that neither a closed canopy (large x) nor a seedling (small x) loses digits.
  const grown = x > 30 ? x + rM * t : Math.log1p(Math.expm1(x) * Math.exp(rM * t));
  return cM / rM * grown;
}

/** R_m t below which the short step is used: its series then errs by less than 1e-9 of the growth. */
const SHORT_STEP = 0.02;

/** The same as growExpolinear for R_m t below SHORT_STEP, with one exponential: ln(1 + q (e^-y - 1)) and e^-y by their series. */
export function growShortStep(w: number, cM: number, rM: number, t: number): number {
  if (cM <= 0) return w;
  const y = rM * t;
  const falls = y * (-1 + y * (1 / 2 + y * (-1 / 6 + y * (1 / 24 - y / 120))));
  const d = fallingExp(rM * w / cM) * falls;
  const log = d * (1 + d * (-1 / 2 + d * (1 / 3 + d * (-1 / 4 + d * (1 / 5 - d / 6)))));
  return w + cM / rM * (y + log);
}

/**
 * Builds the model. C_m = light use x mean light of the last days; R_m = r_m x degrees above the base.
 * Where it is too cold for degree-days there is no growth at all.
 */
export function createExpolinear(overrides: ParameterOverrides = {}): Outcome<GrowthModel> {
  const settled = settleParameters(EXPOLINEAR_PARAMETERS, overrides);
  if (!settled.ok) return settled;
  const at = (symbol: string) => valueOf(EXPOLINEAR_PARAMETERS, settled.value, symbol);
  return accepted(buildModel(settled.value, {
    lue: at('lue'), rM: at('r_m'), tBase: at('t_base'), tFull: at('t_full'), lightS: at('light_days') * DAY_S, sla: at('sla'), k: at('k'),
  }));
}

function buildModel(values: Float64Array, c: ExpolinearConstants): GrowthModel {
  const cover = (massGPerM2: number) => 1 - Math.exp(-c.k * c.sla * massGPerM2);
  return {
    id: 'expolinear', title: 'Expolinear growth on degree-days', source: SOURCE,
    parameters: EXPOLINEAR_PARAMETERS, values, valid: VALID, disturbsExpansion: true,
    stateVariables: [
      { name: 'shoot', unit: 'g/m2', corrected: true }, { name: 'degree-days', unit: 'Cel.d', corrected: false },
      { name: 'mean light', unit: 'umol/m2/s', corrected: false },
    ],
    createState: ({ shootDryGPerPlant, plantsPerM2 }) => Float64Array.of(shootDryGPerPlant * plantsPerM2, 0, LIGHT_AT_START),
    step: (state, hour, stepS) => stepState(c, state, hour, stepS),
    shootDryGPerM2: (state) => state[0]!,
    leafAreaIndex: (state) => c.sla * state[0]!,
    groundCover: (state) => cover(state[0]!),
    respace: (state, from, to) => { state[0] = state[0]! * to / from; },
    advanceMembers: (members, climate, fromHour, toHour) => advance(c, members, climate, fromHour, toHour),
  };
}

const degreesAbove = (c: ExpolinearConstants, airC: number) => Math.max(0, Math.min(airC, c.tFull) - c.tBase);

function stepState(c: ExpolinearConstants, state: Float64Array, hour: ClimateHour, stepS: number): void {
  const degrees = degreesAbove(c, hour.airC);
  const days = stepS / DAY_S;
  state[2] = hour.ppfdUmolM2S + (state[2]! - hour.ppfdUmolM2S) * Math.exp(-stepS / c.lightS);
  state[1] = state[1]! + degrees * days;
  if (degrees > 0) state[0] = growExpolinear(state[0]!, lightLimit(c, state[2]), c.rM * degrees, days);
}

/** C_m, g/m2/d, from the mean light. */
const lightLimit = (c: ExpolinearConstants, ppfdUmolM2S: number) => c.lue * ppfdUmolM2S * DAY_S / 1e6;

function advance(c: ExpolinearConstants, members: MemberColumns, climate: HourlyClimate, fromHour: number, toHour: number): void {
  const [mass, thermal, light] = members.states as [Float64Array, Float64Array, Float64Array];
  const { members: count, assimilation, expansion } = members;
  const fade = Math.exp(-3600 / c.lightS);
  const days = 1 / 24;
  for (let i = fromHour; i < toHour; i += 1) {
    const degrees = degreesAbove(c, climate.airC[i]!);
    const ppfd = climate.ppfdUmolM2S[i]!;
    for (let m = 0; m < count; m += 1) {
      const seen = ppfd + (light[m]! - ppfd) * fade;
      light[m] = seen;
      thermal[m] = thermal[m]! + degrees * days;
      if (degrees > 0) {
        const rM = c.rM * degrees * expansion[m]!;
        const cM = lightLimit(c, seen) * assimilation[m]!;
        mass[m] = rM * days < SHORT_STEP ? growShortStep(mass[m]!, cM, rM, days) : growExpolinear(mass[m]!, cM, rM, days);
      }
    }
  }
}
