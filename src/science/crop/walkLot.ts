/** A lot's days from its start: plants are moved apart at midnight, looked at and forecast at noon, disturbed every night. */
import type { RandomStream } from '../seededRandom.ts';
import { assimilateScalar } from './assimilate.ts';
import type { DryMatterCurve } from './dryMatter.ts';
import type { HourlyClimate } from './growthModel.ts';
import type { LotEnsemble } from './lotEnsemble.ts';
import { advanceLot, disturbLot, dryPerPlant, leafAreaPerPlant, logDryPerPlant, logFreshPerPlant, respaceLot } from './lotEnsemble.ts';
import type { Look } from './sampleLooks.ts';

/** Plants are cut, weighed and forecast at noon (common practice, no source). */
export const NOON_H = 12;

export interface LotWalk {
  readonly climate: HourlyClimate;
  readonly startDay: number;
  readonly endDay: number;
  readonly plantsPerM2On: (day: number) => number;
  readonly dryMatter: DryMatterCurve;
  /** Assimilated on their day, in this order. */
  readonly looks: readonly Look[];
  /** Called at noon of each day, after the day's looks. */
  readonly atNoon?: (day: number, ensemble: LotEnsemble) => void;
  /** Called for each look before it is assimilated, with what the members would have shown. */
  readonly beforeLook?: (look: Look, predicted: Float64Array) => void;
}

/** Moves the ensemble from noon of the first day to noon of the last. */
export function walkLot(walk: LotWalk, ensemble: LotEnsemble, random: RandomStream): void {
  const hourOfDay = (day: number) => hourIndex(walk.climate, day);
  for (let day = walk.startDay; day <= walk.endDay; day += 1) {
    if (day > walk.startDay) {
      respaceLot(ensemble, walk.plantsPerM2On(day));
      advanceLot(ensemble, walk.climate, hourOfDay(day), hourOfDay(day) + NOON_H);
    }
    takeLooks(walk, ensemble, day);
    walk.atNoon?.(day, ensemble);
    if (day < walk.endDay) {
      advanceLot(ensemble, walk.climate, hourOfDay(day) + NOON_H, hourOfDay(day + 1));
      disturbLot(ensemble, random);
    }
  }
}

/** Index of the local hour that begins a day in the climate's arrays. */
export function hourIndex(climate: HourlyClimate, day: number): number {
  return Math.round(day * 24 - climate.utcOffsetH - climate.startUtcHour);
}

function takeLooks(walk: LotWalk, ensemble: LotEnsemble, day: number): void {
  for (const look of walk.looks) {
    if (look.day !== day) continue;
    const predicted = predictLook(look, ensemble, walk.dryMatter);
    walk.beforeLook?.(look, predicted);
    assimilateScalar(ensemble, predicted, look.logMean, look.logSd);
  }
}

/** What each member would have shown, as a logarithm: what it has, and what the instrument shows too much of. */
export function predictLook(look: Pick<Look, 'quantity' | 'logDryMean' | 'instrument'>, ensemble: LotEnsemble, curve: DryMatterCurve): Float64Array {
  const predicted = valueOfMembers(look, ensemble, curve);
  const bias = look.instrument === undefined ? undefined : ensemble.biases[look.instrument];
  return bias === undefined ? predicted : predicted.map((value, m) => value + bias[m]!);
}

function valueOfMembers({ quantity, logDryMean }: Pick<Look, 'quantity' | 'logDryMean'>, ensemble: LotEnsemble, curve: DryMatterCurve): Float64Array {
  const predicted = new Float64Array(ensemble.members);
  if (quantity === 'leafAreaM2') return leafAreaPerPlant(ensemble, predicted).map(Math.log);
  if (quantity === 'freshG') return logFreshPerPlant(ensemble, curve, predicted);
  if (quantity === 'dryG') return dryPerPlant(ensemble, predicted).map(Math.log);
  const middle = logDryPerPlant(ensemble, predicted);
  const ofThese = curve.intercept + curve.slope * middle + curve.daySlope * (logDryMean! - middle);
  return ensemble.lotFreshness.map((own, m) => ofThese + own + ensemble.freshnessDrift[m]!);
}
