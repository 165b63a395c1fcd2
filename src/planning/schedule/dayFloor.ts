/** The floor while a day is laid out: what setting a basin down at a station and taking it away do to places and times. */
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { StateLayout } from './dayState.ts';
import { layOutState, startState } from './dayState.ts';
import type { LeftOutCause } from './schedule.ts';
import type { TimeSpan } from './scheduleProblem.ts';

/** What was laid out, by leg. Only legs that are made hold meaning. */
export interface LegTimes {
  readonly vehicle: Int16Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly emptyFrom: Int32Array;
  readonly emptyDepartS: Int32Array;
  readonly pickS: Int32Array;
  readonly departS: Int32Array;
  readonly arriveS: Int32Array;
  readonly station: Int16Array;
  readonly startS: Int32Array;
  readonly endS: Int32Array;
  /** UNKNOWN while the basin stands there. */
  readonly leaveS: Int32Array;
  /** Charging before the trip; toS 0 without. */
  readonly chargeFrom: Int32Array;
  readonly chargeDepartS: Int32Array;
  readonly chargeFromS: Int32Array;
  readonly chargeToS: Int32Array;
}

/** Sums over what was laid out: positions in `totals`. */
export const FINISH = 0;
export const WEIGHTED_LATE = 1;
export const EMPTY = 2;
export const LOADED = 3;
export const BERTH_COST = 4;
export const BACK_SUM = 5;
/** Stops whose station or time differs from what people have been told. */
export const CHANGES = 6;
const TOTAL_COUNT = 7;

/** What people have been told of the rest of the day, by leg; station -1: nothing. */
export interface ToldStops {
  readonly station: Int16Array;
  readonly startS: Int32Array;
  /** A start that moves by no more than this is no change. */
  readonly toleranceS: number;
}

export class DayFloor {
  readonly model: DayModel;
  readonly layout: StateLayout;
  readonly state: Int32Array;
  readonly legs: LegTimes;
  readonly totals = new Float64Array(TOTAL_COUNT);
  /** Visits that only go to their berth from where they are. */
  readonly givenUp: Uint8Array;
  told: ToldStops | undefined;
  /** The visit that cannot be laid out, and why; meaningful after a method said so. */
  culprit = -1;
  cause: LeftOutCause = 'no time';

  constructor(model: DayModel) {
    this.model = model;
    this.layout = layOutState(model);
    this.state = startState(model, this.layout);
    const wide = (): Int32Array => new Int32Array(model.legCount);
    const narrow = (): Int16Array => new Int16Array(model.legCount).fill(-1);
    this.legs = {
      vehicle: narrow(), from: wide(), to: wide(), emptyFrom: wide(), emptyDepartS: wide(), pickS: wide(), departS: wide(), arriveS: wide(),
      station: narrow(), startS: wide(), endS: wide(), leaveS: wide(),
      chargeFrom: wide(), chargeDepartS: wide(), chargeFromS: wide(), chargeToS: wide(),
    };
    this.givenUp = new Uint8Array(model.visitCount);
  }

  blame(visit: number, cause: LeftOutCause): false {
    this.culprit = visit;
    this.cause = cause;
    return false;
  }

  /** Next leg, counted within the visit; stopCount is the way to the berth, stopCount + 1 when it is over. */
  nextLeg(visit: number): number {
    const leg = this.state[this.layout.leg + visit] as number;
    const stops = this.model.stopCount[visit] as number;
    return leg > 0 && leg < stops && this.givenUp[visit] === 1 ? stops : leg;
  }

  /** From when the basin can be lifted, UNKNOWN while that depends on others. */
  readyToLiftS(visit: number): number {
    const waits = (this.state[this.layout.station + visit] as number) >= 0 && (this.state[this.layout.place + visit] as number) < 0;
    const stands = this.state[this.layout.ready + visit] as number;
    return waits && stands === UNKNOWN && this.givenUp[visit] === 1 ? (this.state[this.layout.standsS + visit] as number) : stands;
  }

  /** Least of the numbers in state[from .. to - 1]; UNKNOWN when there are none. */
  least(from: number, to: number): number {
    let least = UNKNOWN;
    for (let i = from; i < to; i++) if ((this.state[i] as number) < least) least = this.state[i] as number;
    return least;
  }

  /** When a slot of the station is free for one more basin; UNKNOWN: none is in sight. */
  slotFreeS(s: number): number {
    if ((this.model.stations[s] as StationModel).slots === UNKNOWN) return 0;
    const { slotFree, slotBase } = this.layout;
    return this.least(slotFree + (slotBase[s] as number), slotFree + (slotBase[s + 1] as number));
  }

  /** When a service place is likely free for one more basin, those that wait counted in. */
  placeGuessS(s: number): number {
    const { placeGuess, placeBase } = this.layout;
    return this.least(placeGuess + (placeBase[s] as number), placeGuess + (placeBase[s + 1] as number));
  }

  private indexOf(value: number, from: number, to: number): number {
    for (let i = from; i < to; i++) if ((this.state[i] as number) === value) return i;
    return -1;
  }

  /** The basin of leg t is set down at station s at arriveS. False when its work can never be done. */
  setDown(visit: number, t: number, s: number, arriveS: number): boolean {
    const { state, layout } = this;
    state[layout.station + visit] = s;
    state[layout.place + visit] = -1;
    state[layout.ready + visit] = UNKNOWN;
    state[layout.standsS + visit] = arriveS;
    this.legs.station[t] = s;
    this.legs.leaveS[t] = UNKNOWN;
    this.holdSlot(s);
    this.guessWork(t, s, arriveS);
    const from = layout.placeFree + (layout.placeBase[s] as number);
    const to = layout.placeFree + (layout.placeBase[s + 1] as number);
    const free = this.least(from, to);
    if (free !== UNKNOWN && this.givenUp[visit] === 0) return this.startWork(visit, t, s, this.indexOf(free, from, to), Math.max(arriveS, free));
    const queue = layout.waitingCount + s;
    state[layout.waiting + (layout.waitBase[s] as number) + (state[queue] as number)] = visit;
    state[queue] = (state[queue] as number) + 1;
    return true;
  }

  private holdSlot(s: number): void {
    const { state, layout } = this;
    if ((this.model.stations[s] as StationModel).slots === UNKNOWN) return;
    const from = layout.slotFree + (layout.slotBase[s] as number);
    const to = layout.slotFree + (layout.slotBase[s + 1] as number);
    const free = this.least(from, to);
    if (free === UNKNOWN) state[layout.overfull + s] = (state[layout.overfull + s] as number) + 1;
    else state[this.indexOf(free, from, to)] = UNKNOWN;
  }

  private guessWork(t: number, s: number, arriveS: number): void {
    const { state, layout, model } = this;
    const from = layout.placeGuess + (layout.placeBase[s] as number);
    const to = layout.placeGuess + (layout.placeBase[s + 1] as number);
    const guess = this.least(from, to);
    const start = fitWork((model.stations[s] as StationModel).open, Math.max(arriveS, guess), this.serviceS(t, s));
    state[this.indexOf(guess, from, to)] = start === UNKNOWN ? guess : start + this.serviceS(t, s);
  }

  /** When the stops that have to come before that of leg t are all done; UNKNOWN while that is open. */
  orderGateS(t: number): number {
    let gateS = 0;
    for (const before of this.model.after[t] as readonly number[]) gateS = Math.max(gateS, this.state[this.layout.stopEnd + before] as number);
    return gateS;
  }

  /** Service time of leg t at station s. */
  serviceS(t: number, s: number): number {
    const { altBase, altStation, altServiceS } = this.model;
    for (let a = altBase[t] as number; a < (altBase[t + 1] as number); a++) if (altStation[a] === s) return altServiceS[a] as number;
    return 0;
  }

  /** With unlimited waiting places a basin frees its place when the work is done; else it holds it until taken away. */
  private startWork(visit: number, t: number, s: number, place: number, fromS: number): boolean {
    const { state, layout, model, legs } = this;
    const station = model.stations[s] as StationModel;
    const service = this.serviceS(t, s);
    const orderS = this.orderGateS(t);
    if (orderS === UNKNOWN) return this.blame(visit, 'waits for a visit left out');
    const start = this.startInShift(station, Math.max(fromS, orderS, model.nowS, model.notBeforeS[t] as number), service);
    if (start === UNKNOWN) return this.blame(visit, 'no time');
    const end = start + service;
    if (end > (model.endByS[t] as number)) return this.blame(visit, 'deadline');
    state[place] = station.slots === UNKNOWN ? end : UNKNOWN;
    state[layout.place + visit] = place;
    state[layout.ready + visit] = end;
    state[layout.stopEnd + t] = end;
    legs.startS[t] = start;
    legs.endS[t] = end;
    if (this.told !== undefined) this.countChange(this.told, t, s, start);
    this.countLate(visit, end - (model.stopDueS[t] as number));
    return true;
  }

  /** A basin whose work began before the plan is made holds a slot and a place; -1: there are more of them than places. */
  holdFromStart(s: number, endS: number): number {
    const { state, layout } = this;
    const station = this.model.stations[s] as StationModel;
    this.holdSlot(s);
    const from = layout.placeFree + (layout.placeBase[s] as number);
    const to = layout.placeFree + (layout.placeBase[s + 1] as number);
    const free = this.least(from, to);
    const guesses = layout.placeGuess - layout.placeFree;
    if (free === UNKNOWN) return -1;
    const place = this.indexOf(free, from, to);
    state[place] = station.slots === UNKNOWN ? Math.max(free, endS) : UNKNOWN;
    state[place + guesses] = Math.max(state[place + guesses] as number, endS);
    return place;
  }

  private startInShift(station: StationModel, fromS: number, service: number): number {
    const { state, layout } = this;
    if (station.crew < 0) return fitWork(station.open, fromS, service);
    const from = layout.crewFree + (layout.crewBase[station.crew] as number);
    const to = layout.crewFree + (layout.crewBase[station.crew + 1] as number);
    const person = this.indexOf(this.least(from, to), from, to);
    const start = fitWork(station.open, Math.max(fromS, state[person] as number), service);
    if (start !== UNKNOWN) state[person] = start + service;
    return start;
  }

  private countChange(told: ToldStops, t: number, s: number, startS: number): void {
    const before = told.station[t] as number;
    if (before < 0) return;
    const moved = Math.abs(startS - (told.startS[t] as number)) > told.toleranceS;
    if (before !== s || moved) this.totals[CHANGES] = (this.totals[CHANGES] as number) + 1;
  }

  countLate(visit: number, lateS: number): void {
    const at = this.layout.late + visit;
    const before = this.state[at] as number;
    if (lateS <= before) return;
    this.state[at] = lateS;
    this.totals[WEIGHTED_LATE] = (this.totals[WEIGHTED_LATE] as number) + (this.model.priority[visit] as number) * (lateS - before);
  }

  /** The basin that stands at a station is lifted away; the one that waits first moves up. False when its work can never be done. */
  takeAway(visit: number, t: number, departS: number): boolean {
    const { state, layout } = this;
    const s = state[layout.station + visit] as number;
    const place = state[layout.place + visit] as number;
    this.legs.leaveS[t] = departS;
    state[layout.station + visit] = -1;
    state[layout.place + visit] = -1;
    if ((this.model.stations[s] as StationModel).slots === UNKNOWN) return true;
    this.freeSlot(s, departS);
    if (place < 0) {
      this.leaveQueue(visit, s);
      return true;
    }
    state[place] = departS;
    this.raiseGuess(s, departS);
    return this.moveUp(s, place, departS);
  }

  freeSlot(s: number, departS: number): void {
    const { state, layout } = this;
    const over = layout.overfull + s;
    if ((state[over] as number) > 0) {
      state[over] = (state[over] as number) - 1;
      return;
    }
    const from = layout.slotFree + (layout.slotBase[s] as number);
    state[this.indexOf(UNKNOWN, from, layout.slotFree + (layout.slotBase[s + 1] as number))] = departS;
  }

  private raiseGuess(s: number, departS: number): void {
    const { state, layout } = this;
    const from = layout.placeGuess + (layout.placeBase[s] as number);
    const to = layout.placeGuess + (layout.placeBase[s + 1] as number);
    const guess = this.least(from, to);
    if (guess < departS) state[this.indexOf(guess, from, to)] = departS;
  }

  private moveUp(s: number, place: number, departS: number): boolean {
    const { state, layout } = this;
    const next = this.firstWaiting(s);
    if (next < 0) return true;
    this.leaveQueue(next, s);
    const t = (this.model.legBase[next] as number) + (state[layout.leg + next] as number) - 1;
    return this.startWork(next, t, s, place, Math.max(departS, state[layout.standsS + next] as number));
  }

  /** The basin that has waited longest for work here; -1: none. */
  private firstWaiting(s: number): number {
    const { state, layout } = this;
    const base = layout.waiting + (layout.waitBase[s] as number);
    const count = state[layout.waitingCount + s] as number;
    for (let i = 0; i < count; i++) {
      const visit = state[base + i] as number;
      if (this.givenUp[visit] === 0) return visit;
    }
    return -1;
  }

  private leaveQueue(visit: number, s: number): void {
    const { state, layout } = this;
    const base = layout.waiting + (layout.waitBase[s] as number);
    const count = (state[layout.waitingCount + s] as number) - 1;
    const at = this.indexOf(visit, base, base + count + 1);
    if (at < 0) return;
    state.copyWithin(at, at + 1, base + count + 1);
    state[layout.waitingCount + s] = count;
  }
}

/** Earliest start of uninterrupted work, UNKNOWN where none fits. */
export function fitWork(open: readonly TimeSpan[], fromS: number, lengthS: number): number {
  for (let i = 0; i < open.length; i++) {
    const span = open[i] as TimeSpan;
    const start = fromS > span.fromS ? fromS : span.fromS;
    if (start + lengthS <= span.toS) return start;
  }
  return UNKNOWN;
}
