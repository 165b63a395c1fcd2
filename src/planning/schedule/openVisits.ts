/**
 * The visits that can make a trip next. Those that have not left their berth are many and much alike: of the ones
 * without times of their own only those near a vehicle that is soon free are looked at.
 */
import { UNKNOWN } from './dayModel.ts';
import type { DayModel } from './dayModel.ts';
import type { TripDecoder } from './tripDecoder.ts';

/** From so many plain visits on, only the near ones are looked at. */
const FEW = 40;
const VEHICLES = 3;
const NEAREST = 5;

export class OpenVisits {
  private readonly decoder: TripDecoder;
  /** On the floor, or with times of their own. */
  private special: number[] = [];
  private plainCount = 0;
  private readonly isPlain: Uint8Array;
  private readonly nearTo = new Map<number, Int32Array>();
  private readonly looked: Int32Array;
  private round = 0;
  private readonly hasRoom: Int8Array;
  private readonly found: Int32Array;

  constructor(decoder: TripDecoder, visits: readonly number[]) {
    const { model } = decoder;
    this.decoder = decoder;
    this.isPlain = new Uint8Array(model.visitCount);
    this.looked = new Int32Array(model.visitCount);
    this.hasRoom = new Int8Array(model.firstStopClasses.length);
    this.found = new Int32Array(model.firstStopClasses.length);
    for (const visit of visits) {
      if (this.isOrdinary(visit)) {
        this.isPlain[visit] = 1;
        this.plainCount++;
      } else this.special.push(visit);
    }
  }

  private isOrdinary(visit: number): boolean {
    const { model, floor: { state, layout } } = this.decoder;
    if (state[layout.leg + visit] !== 0 || (model.releaseS[visit] as number) > model.nowS) return false;
    if (model.dueS[visit] !== UNKNOWN || model.deadlineS[visit] !== UNKNOWN) return false;
    for (let t = model.legBase[visit] as number; t < (model.legBase[visit + 1] as number); t++) {
      if ((model.notBeforeS[t] as number) > 0 || model.endByS[t] !== UNKNOWN || model.stopDueS[t] !== UNKNOWN) return false;
      if ((model.after[t] as readonly number[]).length > 0) return false;
    }
    return true;
  }

  get count(): number {
    return this.special.length + this.plainCount;
  }

  /** After a trip of the visit was laid out. */
  update(visit: number): void {
    if (this.isPlain[visit] === 1) {
      this.isPlain[visit] = 0;
      this.plainCount--;
      this.special.push(visit);
    }
    if (this.decoder.isOver(visit)) this.special.splice(this.special.indexOf(visit), 1);
  }

  /** Every visit that is not over. */
  all(): number[] {
    const plain: number[] = [];
    this.isPlain.forEach((isPlain, visit) => { if (isPlain === 1) plain.push(visit); });
    return [...this.special, ...plain];
  }

  /** Calls `look` for each visit that may come next until it says stop; `near`: of many plain ones only the near. */
  forEach(near: boolean, look: (visit: number) => boolean): void {
    const { model, floor: { state, layout } } = this.decoder;
    this.hasRoom.fill(0);
    for (let i = 0; i < this.special.length; i++) {
      const visit = this.special[i] as number;
      if ((state[layout.leg + visit] !== 0 || this.classHasRoom(visit)) && look(visit)) return;
    }
    if (near && this.plainCount > FEW) {
      this.forEachNear(look);
      return;
    }
    for (let visit = 0; visit < model.visitCount; visit++) {
      if (this.isPlain[visit] === 1 && this.classHasRoom(visit) && look(visit)) return;
    }
  }

  private forEachNear(look: (visit: number) => boolean): void {
    const { model, floor: { state, layout } } = this.decoder;
    this.round++;
    for (const vehicle of this.soonFree()) {
      this.found.fill(0);
      const list = this.listNear(state[layout.vehicleAt + vehicle] as number);
      for (let i = 0; i < list.length; i++) {
        const visit = list[i] as number;
        if (this.isPlain[visit] === 0) continue;
        const kind = model.firstStopClass[visit] as number;
        if ((this.found[kind] as number) >= NEAREST || !this.classHasRoom(visit)) continue;
        this.found[kind] = (this.found[kind] as number) + 1;
        if (this.looked[visit] === this.round) continue;
        this.looked[visit] = this.round;
        if (look(visit)) return;
      }
    }
  }

  /** Whether any station that the first stop can go to has a slot in sight. */
  private classHasRoom(visit: number): boolean {
    const { model, floor } = this.decoder;
    const kind = model.firstStopClass[visit] as number;
    if (this.hasRoom[kind] === 0) {
      this.hasRoom[kind] = (model.firstStopClasses[kind] as readonly number[]).some((s) => floor.slotFreeS(s) !== UNKNOWN) ? 1 : -1;
    }
    return this.hasRoom[kind] === 1;
  }

  private soonFree(): number[] {
    const { model, floor: { state, layout } } = this.decoder;
    const vehicles = Array.from({ length: model.vehicleCount }, (_, k) => k);
    const freeS = (k: number): number => state[layout.vehicleFree + k] as number;
    return vehicles.sort((a, b) => freeS(a) - freeS(b) || a - b).slice(0, VEHICLES);
  }

  /** Plain visits by empty way from the location; those that have left since are dropped when the list is asked for again. */
  private listNear(location: number): Int32Array {
    const known = this.nearTo.get(location) ?? allNear(this.decoder.model, location);
    if (known.length < 2 * this.plainCount) return known;
    const left = known.filter((visit) => this.isPlain[visit] === 1);
    this.nearTo.set(location, left);
    return left;
  }
}

/** Every visit by empty way from a location to its basin, worked out once for a model. */
const nearOfModel = new WeakMap<DayModel, Map<number, Int32Array>>();

function allNear(model: DayModel, location: number): Int32Array {
  const lists = nearOfModel.get(model) ?? new Map<number, Int32Array>();
  nearOfModel.set(model, lists);
  const known = lists.get(location);
  if (known !== undefined) return known;
  const wayS = (visit: number): number => model.emptyS[location * model.locationCount + (model.startLocation[visit] as number)] as number;
  const near = Int32Array.from({ length: model.visitCount }, (_, v) => v).sort((a, b) => wayS(a) - wayS(b) || a - b);
  lists.set(location, near);
  return near;
}
