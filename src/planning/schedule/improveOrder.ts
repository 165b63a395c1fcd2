/**
 * Improves a day by annealing over orders of trips: thousands of small changes, each laid out from its first difference,
 * kept when good enough for the temperature of the moment. The work is counted in changes tried, never by a clock.
 */
import type { DayAims, EnergyWeights } from './dayAims.ts';
import { compareAims, energyOf, readAims } from './dayAims.ts';
import type { DayChoice } from './dayChoice.ts';
import { DayChoice as Choice } from './dayChoice.ts';
import { changeGene, followReturn, insertVisit, removeVisit, shiftTrip, shiftVisit, swapTrips, swapVisits } from './orderMoves.ts';
import type { OrderDraft } from './orderMoves.ts';
import { OrderRunner } from './orderRunner.ts';
import type { SeededRandom } from './seededRandom.ts';
import type { TripDecoder } from './tripDecoder.ts';

export interface ImproveOptions {
  readonly random: SeededRandom;
  readonly iterations: number;
  readonly weights: EnergyWeights;
  /** Temperatures at the start and at the end, in seconds of energy. */
  readonly hotS: number;
  readonly coldS: number;
  /** Search ends when the finish reaches it and nothing is late or left out. */
  readonly boundS: number;
  readonly onProgress?: (tried: number, aims: DayAims) => void;
}

export interface FoundDay {
  readonly order: number[];
  readonly alternativeGene: Int16Array;
  readonly vehicleGene: Int16Array;
  readonly choice: DayChoice;
  readonly aims: DayAims;
}

/** The decoder stands at the start with what is under way in place; its genes are those of the order. */
export function improveOrder(decoder: TripDecoder, order: readonly number[], choice: DayChoice, options: ImproveOptions): FoundDay {
  return new Improvement(decoder, order, choice, options).search();
}

const PROGRESS_EVERY = 2000;
/** The search is heated up again so often. */
const ROUNDS = 4;

class Improvement {
  private readonly runner: OrderRunner;
  private readonly draft: OrderDraft;
  private readonly choice: DayChoice;
  private energy: number;
  private dropped: { must: number; other: number };
  private best: FoundDay;
  private readonly decoder: TripDecoder;
  private readonly options: ImproveOptions;

  constructor(decoder: TripDecoder, order: readonly number[], choice: DayChoice, options: ImproveOptions) {
    this.decoder = decoder;
    this.options = options;
    this.choice = new Choice(decoder.model);
    this.choice.copyFrom(choice);
    this.runner = new OrderRunner(decoder, order);
    this.draft = { order: new Int32Array(decoder.model.legCount + 1), length: 0, gene: undefined };
    this.dropped = choice.droppedWeights();
    if (!this.runner.run(Int32Array.from(order), order.length, 0, () => false)) throw new Error('the order to improve cannot be laid out');
    this.runner.accept();
    this.energy = energyOf(decoder.floor.totals, options.weights);
    this.best = this.snapshot();
  }

  private snapshot(): FoundDay {
    const { decoder, runner, options } = this;
    const choice = new Choice(decoder.model);
    choice.copyFrom(this.choice);
    return {
      order: [...runner.order.subarray(0, runner.length)],
      alternativeGene: decoder.alternativeGene.slice(), vehicleGene: decoder.vehicleGene.slice(), choice,
      aims: readAims(decoder.floor.totals, this.dropped, options.weights.change),
    };
  }

  search(): FoundDay {
    const { options, runner } = this;
    const cooling = Math.log(options.coldS / options.hotS);
    for (let tried = 0; tried < options.iterations && runner.length > 1; tried++) {
      if (tried % PROGRESS_EVERY === 0) options.onProgress?.(tried, this.best.aims);
      if (this.isProvenBest()) break;
      const temperature = options.hotS * Math.exp(cooling * ((tried * ROUNDS) / options.iterations % 1));
      const worst = this.energy - temperature * Math.log(1 - options.random.next());
      if (this.dropped.must + this.dropped.other > 0 && options.random.below(8) === 0) this.tryChoice();
      else this.tryOrder(worst);
    }
    options.onProgress?.(options.iterations, this.best.aims);
    return this.best;
  }

  private isProvenBest(): boolean {
    const { aims } = this.best;
    return aims.mustLeftOut + aims.otherLeftOut + aims.weightedLateS + aims.changes === 0 && aims.finishS <= this.options.boundS;
  }

  private startDraft(): void {
    this.draft.order.set(this.runner.order);
    this.draft.length = this.runner.length;
    this.draft.gene = undefined;
  }

  private tryOrder(worst: number): void {
    const { runner, draft, options } = this;
    this.startDraft();
    const from = this.drawMove();
    if (from < 0) return;
    const tooBad = (totals: Float64Array): boolean => energyOf(totals, options.weights) > worst;
    if (!runner.run(draft.order, draft.length, from, tooBad)) {
      if (draft.gene !== undefined) draft.gene.list[draft.gene.leg] = draft.gene.before;
      return;
    }
    this.take();
  }

  private take(): void {
    this.runner.accept();
    this.energy = energyOf(this.decoder.floor.totals, this.options.weights);
    const aims = readAims(this.decoder.floor.totals, this.dropped, this.options.weights.change);
    if (compareAims(aims, this.best.aims) < 0) this.best = this.snapshot();
  }

  private drawMove(): number {
    const { draft, options: { random }, decoder } = this;
    const at = random.below(draft.length);
    if (random.below(100) < FOLLOWED) {
      const from = followReturn(draft, decoder, at);
      if (from >= 0) return from;
    }
    const kind = random.below(100);
    const reach = 1 + random.below(REACHES[random.below(REACHES.length)] as number);
    const by = random.below(2) === 0 ? reach : -reach;
    const to = Math.max(0, Math.min(draft.length - 1, at + by));
    if (kind < 40) return to === at ? -1 : shiftTrip(draft, at, to);
    if (kind < 60) return swapTrips(draft, at, to);
    if (kind < 72) return shiftVisit(draft, at, by);
    if (kind < 84) return swapVisits(draft, at, to);
    return changeGene(draft, decoder, random, at);
  }

  /** Tries to make a visit that is left out, if need be in place of one that weighs less. */
  private tryChoice(): void {
    const { runner, draft, options: { random }, choice, decoder: { model } } = this;
    const out = [...choice.leftOut.keys()].filter((v) => choice.leftOut[v] === 1 && !choice.isUnderWay(v) && this.isFree(v));
    if (out.length === 0) return;
    const visit = out[random.below(out.length)] as number;
    this.startDraft();
    let from = draft.length;
    let instead = -1;
    if (random.below(2) === 0) {
      instead = draft.order[random.below(draft.length)] as number;
      if (!this.weighsLess(instead, visit) || !this.isFree(instead) || choice.legsFrozen(instead) > 0) return;
      from = removeVisit(draft, instead);
    }
    const legs = (model.stopCount[visit] as number) + 1;
    const at = instead >= 0 && random.below(2) === 0 ? from : random.below(draft.length + 1);
    from = Math.min(from, insertVisit(draft, random, visit, legs, at));
    if (!runner.run(draft.order, draft.length, from, () => false)) return;
    choice.leftOut[visit] = 0;
    choice.cause[visit] = undefined;
    if (instead >= 0) choice.drop(instead, 'no time');
    this.dropped = choice.droppedWeights();
    this.take();
  }

  /** Neither waits for the work of others nor do others wait for its own. */
  private isFree(visit: number): boolean {
    const { model } = this.decoder;
    return model.after.every((list, t) => list.length === 0
      || (model.legVisit[t] !== visit && list.every((before) => model.legVisit[before] !== visit)));
  }

  private weighsLess(one: number, other: number): boolean {
    const { must, priority } = this.decoder.model;
    if (must[one] !== must[other]) return must[one] === 0;
    return (priority[one] as number) < (priority[other] as number);
  }
}

/** So many moves in a hundred try to begin a visit where a vehicle has just returned one (own choice). */
const FOLLOWED = 20;

/** How far trips are shifted in the order: mostly near, sometimes far. */
const REACHES = [3, 10, 40] as const;
