/**
 * Lays out a whole day at once by going through its events: of all trips that are possible after what is laid out, the
 * one with the smallest score comes next. A visit that does not fit is left out and the day goes on without it.
 */
import type { DayChoice } from './dayChoice.ts';
import type { ToldStops } from './dayFloor.ts';
import type { DayModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import { OpenVisits } from './openVisits.ts';
import { placeFrozen } from './placeFrozen.ts';
import { TripDecoder } from './tripDecoder.ts';
import type { TripScore } from './tripScores.ts';

export interface DispatchedDay {
  readonly decoder: TripDecoder;
  /** Visits in the order in which their legs were laid out. */
  readonly order: number[];
}

/** Every visit of the choice that fits is laid out; those that do not fit are dropped from the choice. */
export function dispatchDay(model: DayModel, choice: DayChoice, score: TripScore, told?: ToldStops, genes?: Int16Array): DispatchedDay {
  for (;;) {
    const decoder = startDecoder(model, choice, told);
    if (genes !== undefined) decoder?.alternativeGene.set(genes);
    const order = decoder === undefined ? undefined : runEvents(decoder, choice, score);
    if (decoder !== undefined && order !== undefined) return { decoder, order };
  }
}

/** A decoder with what is under way in place; undefined when that made the choice drop a visit. */
export function startDecoder(model: DayModel, choice: DayChoice, told?: ToldStops): TripDecoder | undefined {
  const decoder = new TripDecoder(model);
  decoder.floor.told = told;
  decoder.floor.givenUp.set(choice.givenUp);
  if (placeFrozen(decoder.floor)) return decoder;
  choice.drop(decoder.floor.culprit, decoder.floor.cause);
  return undefined;
}

/** The order laid out; undefined when a visit under way had to be given up, so that the day must be begun anew. */
function runEvents(decoder: TripDecoder, choice: DayChoice, score: TripScore): number[] | undefined {
  const order: number[] = [];
  const base = { state: decoder.floor.state.slice(), totals: decoder.floor.totals.slice() };
  const all = [...decoder.model.problem.visits.keys()];
  let open = new OpenVisits(decoder, all.filter((v) => choice.legsToMake(v) > 0));
  while (open.count > 0) {
    const next = pickTrip(decoder, open, score, order);
    if (next >= 0 && decoder.consider(next) === 'ready' && decoder.commit()) {
      order.push(next);
      open.update(next);
      continue;
    }
    const culprit = next === NOTHING ? blameOne(decoder, choice, open.all()) : decoder.floor.culprit;
    const underWay = choice.isUnderWay(culprit);
    choice.drop(culprit, decoder.floor.cause);
    if (underWay || all.some((v) => choice.isUnderWay(v) && choice.givenUp[v] !== decoder.floor.givenUp[v])) return undefined;
    if (next >= 0 || order.some((visit) => choice.leftOut[visit] === 1)) rewind(decoder, base, order, choice);
    open = new OpenVisits(decoder, all.filter((v) => choice.legsToMake(v) > 0 && !decoder.isOver(v)));
  }
  return order;
}

/** When all wait for one another: one that has not left yet, else the first; sets the cause. */
function blameOne(decoder: TripDecoder, choice: DayChoice, open: readonly number[]): number {
  const culprit = open.find((v) => !choice.isUnderWay(v)) ?? (open[0] as number);
  decoder.consider(culprit);
  return culprit;
}

const NOTHING = -1;
const IMPOSSIBLE = -2;

/** The visit whose next trip has the smallest score; NOTHING when all wait for one another; IMPOSSIBLE: see the culprit. */
function pickTrip(decoder: TripDecoder, open: OpenVisits, score: TripScore, made: readonly number[]): number {
  const near = pickAmong(decoder, open, score, made, true);
  return near === NOTHING ? pickAmong(decoder, open, score, made, false) : near;
}

function pickAmong(decoder: TripDecoder, open: OpenVisits, scoreOf: TripScore, made: readonly number[], near: boolean): number {
  let best = NOTHING;
  let bestScore = Infinity;
  open.forEach(near, (visit) => {
    const found = decoder.consider(visit);
    if (found === 'blocked') return false;
    const { candidate } = decoder;
    if (found === 'impossible' || (candidate.within === 0 && candidate.guessS >= UNKNOWN - 1)) {
      if (found === 'ready') decoder.floor.blame(visit, 'no time');
      best = IMPOSSIBLE;
      return true;
    }
    const score = scoreOf(decoder, made);
    if (score < bestScore) {
      best = visit;
      bestScore = score;
    }
    return false;
  });
  return best;
}

/** Lays out again what came before the first trip of a visit that was dropped. */
function rewind(decoder: TripDecoder, base: { state: Int32Array; totals: Float64Array }, order: number[], choice: DayChoice): void {
  const cut = order.findIndex((visit) => choice.leftOut[visit] === 1);
  if (cut >= 0) order.length = cut;
  decoder.floor.state.set(base.state);
  decoder.floor.totals.set(base.totals);
  for (const visit of order) {
    decoder.consider(visit);
    decoder.commit();
  }
}
