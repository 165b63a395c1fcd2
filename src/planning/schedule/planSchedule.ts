/** Plans the visits of a shift: a feasible day at once, then a better one, with a proven bound beside it. */
import { boundFinish } from './boundFinish.ts';
import type { DayAims } from './dayAims.ts';
import { compareAims, readAims } from './dayAims.ts';
import { DayChoice } from './dayChoice.ts';
import type { ToldStops } from './dayFloor.ts';
import { buildDayModel } from './dayModel.ts';
import type { DayModel } from './dayModel.ts';
import { dispatchDay, scoreByWeights, startDecoder } from './dispatchDay.ts';
import type { DispatchWeights, TripScore } from './dispatchDay.ts';
import { improveOrder } from './improveOrder.ts';
import type { FoundDay } from './improveOrder.ts';
import { readSchedule } from './readSchedule.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import { seedRandom } from './seededRandom.ts';

export interface PlanOptions {
  readonly seed: number;
  /** Changes of the order that are tried; the same number gives the same plan bit for bit. */
  readonly iterations: number;
  /** Called now and then, with how far the work is and the finish so far. */
  readonly onProgress?: (progress: PlanProgress) => void;
}

export interface PlanProgress {
  readonly tried: number;
  readonly iterations: number;
  readonly finishS: number;
  readonly leftOut: number;
}

/**
 * A schedule of the problem, which must have passed checkScheduleProblem. Every rule of the problem holds in it; visits
 * that do not fit the shift are left out with a reason. Deterministic: no clock.
 */
export function planSchedule(problem: ScheduleProblem, options: PlanOptions): Schedule {
  const model = buildDayModel(problem);
  const first = constructDay(model, FIRST_WEIGHTS);
  return finishPlan(model, improveDay(model, first, options, undefined, 0));
}

/** Weights of the constructions that are tried, best of all kept; found on random days that no test scores. */
export const FIRST_WEIGHTS: readonly DispatchWeights[] = [
  { empty: 1, wait: 0.5, tail: 0.1, slack: 0.1, priority: 0, clear: 300 },
  { empty: 0.5, wait: 1, tail: 0.3, slack: 0.3, priority: 30, clear: 600 },
  { empty: 2, wait: 0.2, tail: 0, slack: 1, priority: 0, clear: 0 },
  { empty: 1, wait: 2, tail: 1, slack: 0, priority: 0, clear: 300 },
];

/** The best of several constructions. */
export function constructDay(model: DayModel, weights: readonly DispatchWeights[], told?: ToldStops, changeS = 0): FoundDay {
  let best: FoundDay | undefined;
  for (const one of weights) {
    const found = layOut(model, scoreByWeights(model, one), told, changeS);
    if (best === undefined || compareAims(found.aims, best.aims) < 0) best = found;
  }
  return best as FoundDay;
}

/** One construction. */
export function layOut(model: DayModel, score: TripScore, told?: ToldStops, changeS = 0, genes?: Int16Array): FoundDay {
  const choice = new DayChoice(model);
  const { decoder, order } = dispatchDay(model, choice, score, told, genes);
  return {
    order: [...order], choice,
    alternativeGene: decoder.alternativeGene.slice(), vehicleGene: decoder.vehicleGene.slice(),
    aims: readAims(decoder.floor.totals, choice.droppedWeights(), changeS),
  };
}

/** Anneals from the first day; the first day itself where there is nothing to improve. */
export function improveDay(model: DayModel, first: FoundDay, options: PlanOptions, told: ToldStops | undefined, changeS: number): FoundDay {
  const decoder = startDecoder(model, first.choice, told);
  if (decoder === undefined || options.iterations <= 0 || first.order.length < 2) return first;
  decoder.alternativeGene.set(first.alternativeGene);
  decoder.vehicleGene.set(first.vehicleGene);
  const report = (tried: number, aims: DayAims): void => options.onProgress?.({
    tried, iterations: options.iterations, finishS: aims.finishS, leftOut: first.choice.leftOut.reduce((sum, out) => sum + out, 0),
  });
  return improveOrder(decoder, first.order, first.choice, {
    random: seedRandom(options.seed), iterations: options.iterations,
    weights: { late: 10, travel: 0.05, back: 0.2 / model.visitCount, change: changeS },
    hotS: HOT_SHARE * meanLegS(model), coldS: COLD_SHARE * meanLegS(model), boundS: boundFinish(model, first.choice).finishS, onProgress: report,
  });
}

/** Temperatures of the search, as shares of the mean time of a trip with the work after it. */
const HOT_SHARE = 0.5;
const COLD_SHARE = 0.005;

function meanLegS(model: DayModel): number {
  const carryingS = (model.pickS[0] as number) + (model.dropS[0] as number);
  const serviceS = model.altServiceS.reduce((sum, seconds) => sum + seconds, 0) / Math.max(1, model.altServiceS.length);
  let travelS = 0;
  for (let v = 0; v < model.visitCount; v++) {
    const station = model.stations[model.altStation[model.altBase[model.legBase[v] as number] as number] as number];
    travelS += model.loadedS[(model.startLocation[v] as number) * model.locationCount + (station?.location ?? 0)] as number;
  }
  return carryingS + travelS / Math.max(1, model.visitCount) + serviceS / 2;
}

/** Lays the day out once more and reads it. */
export function finishPlan(model: DayModel, found: FoundDay): Schedule {
  const decoder = startDecoder(model, found.choice);
  if (decoder === undefined) throw new Error('a plan that was laid out cannot be laid out again');
  decoder.alternativeGene.set(found.alternativeGene);
  decoder.vehicleGene.set(found.vehicleGene);
  for (const visit of found.order) {
    if (decoder.consider(visit) !== 'ready' || !decoder.commit()) throw new Error('a plan that was laid out cannot be laid out again');
  }
  const laid = readSchedule(decoder, found.choice);
  const bound = boundFinish(model, found.choice);
  return { ...laid, bound, gapPct: bound.finishS > 0 ? (100 * (laid.finishS - bound.finishS)) / bound.finishS : 0 };
}
