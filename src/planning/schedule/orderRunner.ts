/**
 * Lays out a day in a given order of trips, again and again with small changes: states along the present order are kept,
 * so that only what comes after the first change is laid out anew.
 */
import type { TripDecoder } from './tripDecoder.ts';

interface Kept {
  readonly state: Int32Array;
  readonly totals: Float64Array;
  /** Trips laid out so far. */
  count: number;
}

export class OrderRunner {
  readonly decoder: TripDecoder;
  /** Visits in the order in which their legs are laid out: the present order, and the one tried last. */
  order: Int32Array;
  length: number;
  tried: Int32Array;
  triedLength = 0;
  private kept: Kept[] = [];
  private keptCount = 1;
  private keptTried: Kept[] = [];
  private keptTriedCount = 0;
  private firstChanged = 0;
  private readonly stride: number;
  private readonly held: number[] = [];

  /** The decoder stands where the order begins: what is under way is placed, nothing else laid out. */
  constructor(decoder: TripDecoder, order: readonly number[]) {
    this.decoder = decoder;
    const room = decoder.model.legCount;
    this.order = new Int32Array(room);
    this.tried = new Int32Array(room);
    this.length = order.length;
    this.order.set(order);
    this.stride = Math.max(6, Math.ceil(room / 60));
    const { state, totals } = decoder.floor;
    this.kept[0] = { state: state.slice(), totals: totals.slice(), count: 0 };
    this.keptTried[0] = this.kept[0];
  }

  private keep(index: number): void {
    const { state, totals } = this.decoder.floor;
    const kept = this.keptTried[index] ?? { state: state.slice(), totals: totals.slice(), count: 0 };
    kept.state.set(state);
    kept.totals.set(totals);
    kept.count = this.triedLength;
    this.keptTried[index] = kept;
  }

  /**
   * Lays out `candidate` after its first `from` trips, which are those of the present order. False as soon as a visit
   * cannot be made or `isTooBad` says so; then the present order stays what it was. A trip that is blocked waits until
   * it can be made; `tried` is the order that came out.
   */
  run(candidate: Int32Array, length: number, from: number, isTooBad: (totals: Float64Array) => boolean): boolean {
    const { decoder, held } = this;
    let index = Math.min(Math.floor(from / this.stride), this.keptCount - 1);
    while ((this.kept[index] as Kept).count > from) index--;
    const start = this.kept[index] as Kept;
    decoder.floor.state.set(start.state);
    decoder.floor.totals.set(start.totals);
    this.firstChanged = index + 1;
    held.length = 0;
    this.triedLength = start.count;
    for (let i = 0; i < start.count; i++) this.tried[i] = this.order[i] as number;
    let next = index + 1;
    for (let i = start.count; i < length; i++) {
      const visit = candidate[i] as number;
      if (!this.step(visit)) return false;
      if (held.length > MOST_HELD || isTooBad(decoder.floor.totals)) return false;
      if (held.length === 0 && this.triedLength >= next * this.stride) this.keep(next++);
    }
    this.keptTriedCount = next;
    return held.length === 0;
  }

  private step(visit: number): boolean {
    const { decoder, held } = this;
    const found = held.includes(visit) ? 'blocked' : decoder.consider(visit);
    if (found === 'impossible') return false;
    if (found === 'blocked') {
      held.push(visit);
      return true;
    }
    return this.make(visit) && (held.length === 0 || this.makeHeld());
  }

  private make(visit: number): boolean {
    this.tried[this.triedLength++] = visit;
    return this.decoder.commit();
  }

  private makeHeld(): boolean {
    const { decoder, held } = this;
    for (let i = 0; i < held.length; i++) {
      const visit = held[i] as number;
      if (held.indexOf(visit) < i) continue;
      const found = decoder.consider(visit);
      if (found === 'blocked') continue;
      if (found === 'impossible') return false;
      held.splice(i, 1);
      if (!this.make(visit)) return false;
      i = -1;
    }
    return true;
  }

  /** The order tried last becomes the present one. */
  accept(): void {
    for (let i = this.firstChanged; i < this.keptTriedCount; i++) {
      const spare = this.kept[i];
      this.kept[i] = this.keptTried[i] as Kept;
      if (spare === undefined) delete this.keptTried[i];
      else this.keptTried[i] = spare;
    }
    this.keptCount = this.keptTriedCount;
    [this.order, this.tried] = [this.tried, this.order];
    this.length = this.triedLength;
  }
}

const MOST_HELD = 8;
