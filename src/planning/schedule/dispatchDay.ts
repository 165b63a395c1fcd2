/**
 * Lays out a whole day at once by going through its events: of all trips that are possible after what is laid out, the
 * one with the smallest score comes next. A visit that does not fit is left out and the day goes on without it.
 */
import type { DayChoice } from './dayChoice.ts';
import type { ToldStops } from './dayFloor.ts';
import type { DayModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import { placeFrozen } from './placeFrozen.ts';
import { TripDecoder } from './tripDecoder.ts';

/** Seconds that a trip is put off or drawn forward in the order, per second of each. */
export interface DispatchWeights {
  /** Empty way to the basin. */
  readonly empty: number;
  /** Time that the basin would wait at the station. */
  readonly wait: number;
  /** Remaining path of the visit after this trip (drawn forward). */
  readonly tail: number;
  /** Slack to the due time. */
  readonly slack: number;
  /** Per unit of priority (drawn forward). */
  readonly priority: number;
  /** For a basin that must be moved on because others wait behind it (drawn forward). */
  readonly clear: number;
}

export interface DispatchedDay {
  readonly decoder: TripDecoder;
  /** Visits in the order in which their legs were laid out. */
  readonly order: number[];
}

/** A smaller score comes first; called with the trip as the decoder's candidate. */
export type TripScore = (decoder: TripDecoder, made: readonly number[]) => number;

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

/** For each leg the least time from setting down there to being back on the berth. */
function remainingPaths(model: DayModel): Int32Array {
  const tails = new Int32Array(model.legCount);
  for (let v = 0; v < model.visitCount; v++) {
    let tail = 0;
    for (let t = (model.legBase[v + 1] as number) - 2; t >= (model.legBase[v] as number); t--) {
      let service = UNKNOWN;
      for (let a = model.altBase[t] as number; a < (model.altBase[t + 1] as number); a++) service = Math.min(service, model.altServiceS[a] as number);
      tail += service;
      tails[t] = tail;
    }
  }
  return tails;
}

/** The order laid out; undefined when a visit under way had to be given up, so that the day must be begun anew. */
function runEvents(decoder: TripDecoder, choice: DayChoice, score: TripScore): number[] | undefined {
  const order: number[] = [];
  const base = { state: decoder.floor.state.slice(), totals: decoder.floor.totals.slice() };
  let open = [...decoder.model.problem.visits.keys()].filter((v) => choice.legsToMake(v) > 0);
  while (open.length > 0) {
    const next = pickTrip(decoder, open, score, order);
    if (next >= 0 && decoder.consider(next) === 'ready' && decoder.commit()) {
      order.push(next);
      if (decoder.isOver(next)) open = open.filter((v) => v !== next);
      continue;
    }
    const culprit = next === NOTHING ? (open.find((v) => !choice.isUnderWay(v)) ?? (open[0] as number)) : decoder.floor.culprit;
    const underWay = choice.isUnderWay(culprit);
    if (next === NOTHING) decoder.consider(culprit);
    choice.drop(culprit, decoder.floor.cause);
    if (underWay || open.some((v) => choice.isUnderWay(v) && choice.givenUp[v] !== decoder.floor.givenUp[v])) return undefined;
    if (next >= 0 || order.some((visit) => choice.leftOut[visit] === 1)) rewind(decoder, base, order, choice);
    open = [...decoder.model.problem.visits.keys()].filter((v) => choice.legsToMake(v) > 0 && !decoder.isOver(v));
  }
  return order;
}

const NOTHING = -1;
const IMPOSSIBLE = -2;

/** The visit whose next trip has the smallest score; NOTHING when all wait for one another; IMPOSSIBLE: see the culprit. */
function pickTrip(decoder: TripDecoder, open: readonly number[], scoreOf: TripScore, made: readonly number[]): number {
  let best = NOTHING;
  let bestScore = Infinity;
  for (const visit of open) {
    const found = decoder.consider(visit);
    if (found === 'blocked') continue;
    if (found === 'impossible') return IMPOSSIBLE;
    if (decoder.candidate.within === 0 && decoder.candidate.guessS >= UNKNOWN - 1) {
      decoder.floor.blame(visit, 'no time');
      return IMPOSSIBLE;
    }
    const score = scoreOf(decoder, made);
    if (score >= bestScore) continue;
    best = visit;
    bestScore = score;
  }
  return best;
}

/** Events in order of time, drawn forward or put off by the weights. */
export function scoreByWeights(model: DayModel, weights: DispatchWeights): TripScore {
  const tails = remainingPaths(model);
  return (decoder) => {
    const { candidate: c, floor: { state, layout } } = decoder;
    const tail = tails[c.leg] as number;
    const dueS = model.dueS[c.visit] as number;
    const isHome = c.station < 0;
    const wait = isHome ? 0 : Math.max(0, c.guessS - decoder.floor.serviceS(c.leg, c.station) - c.arriveS);
    const slack = dueS === UNKNOWN ? MOST_SLACK_S : Math.min(MOST_SLACK_S, dueS - c.arriveS - tail);
    const from = state[layout.station + c.visit] as number;
    const waiting = from < 0 ? 0 : (state[layout.waitingCount + from] as number);
    return c.pickS + weights.empty * c.emptyS + weights.wait * wait + weights.slack * slack
      - weights.tail * tail - weights.priority * (model.priority[c.visit] as number) - (waiting > 0 ? weights.clear : 0);
  };
}

const MOST_SLACK_S = 4 * 3600;

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
