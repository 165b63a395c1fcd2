/** Which visits are made, given up under way or left out, and why: the part of a plan that is decided before its order. */
import type { DayModel } from './dayModel.ts';
import type { LeftOutCause } from './schedule.ts';

export class DayChoice {
  readonly model: DayModel;
  /** Not made at all; a basin under way that cannot even go home stays where it is. */
  readonly leftOut: Uint8Array;
  readonly givenUp: Uint8Array;
  readonly cause: (LeftOutCause | undefined)[];
  private readonly frozenLegs: Int32Array;
  private readonly begunStops: Int32Array;

  constructor(model: DayModel) {
    this.model = model;
    this.leftOut = new Uint8Array(model.visitCount);
    this.givenUp = new Uint8Array(model.visitCount);
    this.cause = new Array<LeftOutCause | undefined>(model.visitCount).fill(undefined);
    this.frozenLegs = new Int32Array(model.visitCount);
    this.begunStops = new Int32Array(model.visitCount);
    const index = new Map(model.problem.visits.map((v, i) => [v.id, i]));
    const raise = (list: Int32Array, visit: string, to: number): void => {
      const v = index.get(visit) as number;
      list[v] = Math.max(list[v] as number, to);
    };
    for (const trip of model.problem.frozen?.trips ?? []) raise(this.frozenLegs, trip.visit, trip.leg + 1);
    for (const stop of model.problem.frozen?.stops ?? []) raise(this.begunStops, stop.visit, stop.stop + 1);
    for (const visit of model.problem.frozen?.givenUp ?? []) this.drop(index.get(visit) as number, 'given up');
  }

  copyFrom(other: DayChoice): void {
    this.leftOut.set(other.leftOut);
    this.givenUp.set(other.givenUp);
    for (let v = 0; v < this.cause.length; v++) this.cause[v] = other.cause[v];
  }

  isUnderWay(visit: number): boolean {
    const legs = this.frozenLegs[visit] as number;
    return legs > 0 && legs <= (this.model.stopCount[visit] as number);
  }

  /** Legs of the visit that are frozen. */
  legsFrozen(visit: number): number {
    return this.frozenLegs[visit] as number;
  }

  /** Stops whose work has begun, by what is frozen. */
  stopsBegun(visit: number): number {
    return this.begunStops[visit] as number;
  }

  /** Legs that are still to be laid out. */
  legsToMake(visit: number): number {
    const made = this.frozenLegs[visit] as number;
    const all = (this.model.stopCount[visit] as number) + 1;
    if (this.leftOut[visit] === 1 || made >= all) return 0;
    return this.givenUp[visit] === 1 ? 1 : all - made;
  }

  /** Leaves the visit out; if it is under way its basin goes home, or stays where it is when that failed too. */
  drop(visit: number, cause: LeftOutCause): void {
    if (this.isUnderWay(visit) && this.givenUp[visit] === 0 && this.leftOut[visit] === 0) this.givenUp[visit] = 1;
    else this.leftOut[visit] = 1;
    this.cause[visit] ??= cause;
    this.dropDependents();
  }

  private dropDependents(): void {
    const { after, legVisit } = this.model;
    for (let t = 0; t < after.length; t++) {
      const visit = legVisit[t] as number;
      const waits = (after[t] as readonly number[]).some((before) => !this.willBeDone(before));
      if (!waits || this.isDropped(visit) || t - (this.model.legBase[visit] as number) < this.legsFrozen(visit)) continue;
      this.drop(visit, 'waits for a visit left out');
    }
  }

  isDropped(visit: number): boolean {
    return this.leftOut[visit] === 1 || this.givenUp[visit] === 1;
  }

  private willBeDone(leg: number): boolean {
    const visit = this.model.legVisit[leg] as number;
    return !this.isDropped(visit) || leg - (this.model.legBase[visit] as number) < this.stopsBegun(visit);
  }

  /** Weight of the visits that must be made and are not, and of the others. */
  droppedWeights(): { must: number; other: number } {
    const sums = { must: 0, other: 0 };
    for (let v = 0; v < this.leftOut.length; v++) {
      if (!this.isDropped(v)) continue;
      sums[this.model.must[v] === 1 ? 'must' : 'other'] += this.model.priority[v] as number;
    }
    return sums;
  }
}
