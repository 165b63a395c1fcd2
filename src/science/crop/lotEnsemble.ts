/** A lot as many members: each a state of the growth model with its own rates, so that their spread is what is not known. */
import type { RandomStream } from '../seededRandom.ts';
import type { DryMatterCurve } from './dryMatter.ts';
import type { GrowthModel, HourlyClimate, MemberColumns } from './growthModel.ts';
import type { GrowthPrior } from './growthPrior.ts';
import { evenNormals, shuffleInPlace } from './normalNumbers.ts';

export interface LotEnsemble extends MemberColumns {
  readonly model: GrowthModel;
  readonly prior: GrowthPrior;
  /** Logarithms of the lot's own multipliers. */
  readonly lotAssimilation: Float64Array;
  readonly lotExpansion: Float64Array;
  /** Logarithm of the passing disturbance of growth. */
  readonly disturbance: Float64Array;
  /** Logarithm of fresh mass relative to the dry-matter curve: the lot's own part, and the passing part. */
  readonly lotFreshness: Float64Array;
  readonly freshnessDrift: Float64Array;
  /** Logarithm of the seedlings' dry mass relative to the middle of what was believed at the start. */
  readonly lotStart: Float64Array;
  /** What each instrument shows too much of, as a logarithm, by its name: the same at each of its looks. */
  readonly biases: Readonly<Record<string, Float64Array>>;
  plantsPerM2: number;
  /** The mean state, for a look at one plausible crop; kept here so that nothing is allocated by the day. */
  readonly scratch: Float64Array;
  readonly normals: Float64Array;
}

export interface LotStart {
  /** Dry shoot mass of one plant, g: middle, and spread of the logarithm. */
  readonly shootDryGPerPlant: number;
  readonly logSd: number;
  readonly plantsPerM2: number;
}

/** `biasSds`: spread of the logarithm of what each instrument may show too much of. */
export function createLotEnsemble(
  model: GrowthModel, prior: GrowthPrior, start: LotStart, members: number, random: RandomStream, biasSds: Readonly<Record<string, number>> = {},
): LotEnsemble {
  const normals = evenNormals(members);
  const draw = (mean: number, sd: number) => {
    shuffleInPlace(normals, random);
    return normals.map((z) => mean + sd * z);
  };
  // Drawn one after the other, and named one by one below: an object spread into the other makes the hourly loop twice as slow.
  const lotAssimilation = draw(prior.assimilation.mean, prior.assimilation.sd);
  const lotExpansion = draw(prior.expansion.mean, prior.expansion.sd);
  const disturbance = draw(0, prior.disturbanceLogSd);
  const lotFreshness = draw(prior.freshness.mean, prior.freshness.sd);
  const freshnessDrift = draw(0, prior.freshnessDriftLogSd);
  const lotStart = draw(0, start.logSd);
  const split = draw(0, prior.splitLogSd);
  const ensemble: LotEnsemble = {
    lotAssimilation, lotExpansion, disturbance, lotFreshness, freshnessDrift, lotStart, biases: Object.fromEntries(Object.entries(biasSds).map(([name, sd]) => [name, draw(0, sd)])),
    model, prior, members, plantsPerM2: start.plantsPerM2, normals,
    states: model.stateVariables.map(() => new Float64Array(members)),
    assimilation: new Float64Array(members),
    expansion: new Float64Array(members),
    scratch: new Float64Array(model.stateVariables.length),
  };
  fillStates(ensemble, start, split);
  refreshMultipliers(ensemble);
  return ensemble;
}

function fillStates(ensemble: LotEnsemble, start: LotStart, logSplit: Float64Array): void {
  const { stateVariables } = ensemble.model;
  const split = stateVariables.filter((variable) => variable.corrected).length > 1 ? stateVariables.findIndex((variable) => variable.corrected) : -1;
  for (let m = 0; m < ensemble.members; m += 1) {
    const shootDryGPerPlant = start.shootDryGPerPlant * Math.exp(ensemble.lotStart[m]!);
    const state = ensemble.model.createState({ shootDryGPerPlant, plantsPerM2: start.plantsPerM2 });
    // The split between the states is not known either; a model of one mass has none.
    if (split !== -1) state[split] = state[split]! * Math.exp(logSplit[m]!);
    state.forEach((value, s) => { ensemble.states[s]![m] = value; });
  }
}

/** Sets the multipliers that the growth model reads from the logarithms that the filter keeps. */
export function refreshMultipliers(ensemble: LotEnsemble): void {
  for (let m = 0; m < ensemble.members; m += 1) {
    ensemble.assimilation[m] = Math.exp(ensemble.lotAssimilation[m]! + ensemble.disturbance[m]!);
    ensemble.expansion[m] = Math.exp(ensemble.lotExpansion[m]! + (ensemble.model.disturbsExpansion ? ensemble.disturbance[m]! : 0));
  }
}

export function advanceLot(ensemble: LotEnsemble, climate: HourlyClimate, fromHour: number, toHour: number): void {
  ensemble.model.advanceMembers(ensemble, climate, fromHour, toHour);
}

/** A day passes: the lot's rate drifts a little; disturbances fade and new ones come, so that their spread stays (Ornstein & Uhlenbeck 1930, in daily steps). */
export function disturbLot(ensemble: LotEnsemble, random: RandomStream): void {
  const { prior } = ensemble;
  drift(ensemble, ensemble.lotAssimilation, prior.driftLogSdPerWeek / Math.sqrt(7), random);
  fade(ensemble, ensemble.disturbance, prior.disturbanceLogSd, prior.disturbanceDays, random);
  fade(ensemble, ensemble.freshnessDrift, prior.freshnessDriftLogSd, prior.freshnessDriftDays, random);
  refreshMultipliers(ensemble);
}

function drift(ensemble: LotEnsemble, column: Float64Array, sd: number, random: RandomStream): void {
  shuffleInPlace(ensemble.normals, random);
  for (let m = 0; m < ensemble.members; m += 1) column[m] = column[m]! + sd * ensemble.normals[m]!;
}

function fade(ensemble: LotEnsemble, column: Float64Array, sd: number, days: number, random: RandomStream): void {
  const kept = Math.exp(-1 / days);
  const fresh = sd * Math.sqrt(1 - kept * kept);
  shuffleInPlace(ensemble.normals, random);
  for (let m = 0; m < ensemble.members; m += 1) column[m] = kept * column[m]! + fresh * ensemble.normals[m]!;
}

/** Plants are moved to another density. */
export function respaceLot(ensemble: LotEnsemble, plantsPerM2: number): void {
  if (plantsPerM2 === ensemble.plantsPerM2) return;
  eachState(ensemble, (state) => ensemble.model.respace(state, ensemble.plantsPerM2, plantsPerM2), true);
  ensemble.plantsPerM2 = plantsPerM2;
}

/** Dry shoot mass per plant of each member, g, into `into`. */
export function dryPerPlant(ensemble: LotEnsemble, into: Float64Array): Float64Array {
  eachState(ensemble, (state, m) => { into[m] = ensemble.model.shootDryGPerM2(state) / ensemble.plantsPerM2; });
  return into;
}

/** Leaf area per plant of each member, m2, into `into`. */
export function leafAreaPerPlant(ensemble: LotEnsemble, into: Float64Array): Float64Array {
  eachState(ensemble, (state, m) => { into[m] = ensemble.model.leafAreaIndex(state) / ensemble.plantsPerM2; });
  return into;
}

/** Leaf area index and ground cover of the mean member. */
export function meanCanopy(ensemble: LotEnsemble): { leafAreaIndex: number; groundCover: number } {
  ensemble.states.forEach((column, s) => { ensemble.scratch[s] = column.reduce((sum, value) => sum + value, 0) / ensemble.members; });
  return { leafAreaIndex: ensemble.model.leafAreaIndex(ensemble.scratch), groundCover: ensemble.model.groundCover(ensemble.scratch) };
}

function eachState(ensemble: LotEnsemble, visit: (state: Float64Array, member: number) => void, writeBack = false): void {
  const { states, scratch } = ensemble;
  for (let m = 0; m < ensemble.members; m += 1) {
    for (let s = 0; s < states.length; s += 1) scratch[s] = states[s]![m]!;
    visit(scratch, m);
    if (writeBack) for (let s = 0; s < states.length; s += 1) states[s]![m] = scratch[s]!;
  }
}

/**
 * ln of the fresh mass of each member's mean plant, from its dry mass, into `into`: the middle member by the curve, the others around
 * it by the slope among crops of one day.
 */
export function logFreshPerPlant(ensemble: LotEnsemble, curve: DryMatterCurve, into: Float64Array): Float64Array {
  const middle = logDryPerPlant(ensemble, into);
  const atMiddle = curve.intercept + curve.slope * middle;
  for (let m = 0; m < ensemble.members; m += 1) into[m] = atMiddle + curve.daySlope * (into[m]! - middle) + ensemble.lotFreshness[m]! + ensemble.freshnessDrift[m]!;
  return into;
}

/** ln of the dry mass per plant of each member, into `into`; the mean of it. */
export function logDryPerPlant(ensemble: LotEnsemble, into: Float64Array): number {
  dryPerPlant(ensemble, into);
  let sum = 0;
  for (let m = 0; m < ensemble.members; m += 1) {
    into[m] = Math.log(into[m]!);
    sum += into[m]!;
  }
  return sum / ensemble.members;
}
