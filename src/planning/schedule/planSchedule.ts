/** Plans the visits of a shift: a feasible day at once, then a better one, with a proven bound beside it. */
import { boundFinish } from './boundFinish.ts';
import { constructDay } from './constructDay.ts';
import type { KnownPlan } from './constructDay.ts';
import type { DayAims } from './dayAims.ts';
import { buildDayModel } from './dayModel.ts';
import type { DayModel } from './dayModel.ts';
import { startDecoder } from './dispatchDay.ts';
import { improveOrder } from './improveOrder.ts';
import type { FoundDay } from './improveOrder.ts';
import { readSchedule } from './readSchedule.ts';
import type { DayChoice } from './dayChoice.ts';
import type { Schedule, ScheduleBound } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import { seedRandom } from './seededRandom.ts';
import type { SeededRandom } from './seededRandom.ts';
import { FIRST_WEIGHTS } from './tripScores.ts';

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
  const random = seedRandom(options.seed);
  const constructions = constructionsWithin(model, options.iterations);
  const first = constructDay(model, FIRST_WEIGHTS, random, constructions);
  return finishPlan(model, improveDay(model, first, random, { ...options, done: constructions * CONSTRUCTION_COST }));
}

/** A construction costs about as much as so many changes of an order. */
const CONSTRUCTION_COST = 80;

/**
 * Constructions to try: more of them the more trips there are to put in order, with half of the work, or nearly all of it on
 * a whole floor: there a change early in the day alters everything after it, and annealing finds next to nothing.
 */
function constructionsWithin(model: DayModel, iterations: number): number {
  const share = model.legCount > WHOLE_FLOOR_LEGS ? 0.95 : 0.5;
  return Math.min(Math.floor((share * iterations) / CONSTRUCTION_COST), Math.ceil(model.legCount / 4));
}

const WHOLE_FLOOR_LEGS = 600;

/** `done`: iterations that went into the first day. */
type ImproveDayOptions = PlanOptions & { readonly done?: number };

/** Anneals from the first day; the first day itself where there is nothing to improve. */
export function improveDay(model: DayModel, first: FoundDay, random: SeededRandom, options: ImproveDayOptions, known?: KnownPlan): FoundDay {
  const decoder = startDecoder(model, first.choice, known?.told);
  const iterations = options.iterations - (options.done ?? 0);
  if (decoder === undefined || iterations <= 0 || first.order.length < 2) return first;
  decoder.alternativeGene.set(first.alternativeGene);
  decoder.vehicleGene.set(first.vehicleGene);
  const report = (tried: number, aims: DayAims): void => options.onProgress?.({
    tried: (options.done ?? 0) + tried, iterations: options.iterations, finishS: aims.finishS, leftOut: first.choice.leftOut.reduce((sum, out) => sum + out, 0),
  });
  return improveOrder(decoder, first.order, first.choice, {
    random, iterations,
    weights: { late: 10, travel: 0.05, back: 0.2 / model.visitCount, change: known?.changeS ?? 0 },
    hotS: hotShare(iterations / Math.max(1, first.order.length)) * meanLegS(model), coldS: COLD_SHARE * meanLegS(model), boundS: boundOf(model, first.choice).finishS, onProgress: report,
  });
}

/** Temperatures of the search, as shares of the mean time of a trip with the work after it. */
const HOT_SHARE = 0.5;
const WARM_SHARE = 0.02;
const COLD_SHARE = 0.001;
/** Changes a trip from which the search has the time to begin as hot as that: a day of hundreds of trips never cools again in a few thousand (own choice, on four mornings of the demo). */
const CHANGES_TO_COOL = 250;

const hotShare = (changesATrip: number): number => Math.max(WARM_SHARE, HOT_SHARE * Math.min(1, (changesATrip / CHANGES_TO_COOL) ** 2));

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

/** The bound of the visits that are made, worked out once for each set of them. */
const boundsOfModel = new WeakMap<DayModel, Map<string, ScheduleBound>>();

function boundOf(model: DayModel, choice: DayChoice): ScheduleBound {
  const bounds = boundsOfModel.get(model) ?? new Map<string, ScheduleBound>();
  boundsOfModel.set(model, bounds);
  const made = `${choice.leftOut.join('')} ${choice.givenUp.join('')}`;
  const bound = bounds.get(made) ?? boundFinish(model, choice);
  bounds.set(made, bound);
  return bound;
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
  const bound = boundOf(model, found.choice);
  return { ...laid, bound, gapPct: bound.finishS > 0 ? (100 * (laid.finishS - bound.finishS)) / bound.finishS : 0 };
}
