/**
 * Whether every basin on the floor could still get home if one more move is made: the safety test for sequential
 * processes that share places (Dijkstra, "Een algorithme ter voorkoming van de dodelijke omarming", EWD 108, 1965),
 * with service places, slots and first-come order of waiting basins as the shared things.
 *
 * Why no day gets stuck: a state is safe when the basins on the floor can be numbered so that each in turn can walk the
 * rest of its route to its berth (kept free for it) while all later ones stand still. If the state is safe, the next
 * move of the first one leaves it safe, so at least one move is always allowed; every move brings some basin nearer to
 * its berth; so the day ends. One vehicle is enough, and a loaded vehicle never waits, since its goal is free before it
 * lifts.
 */
import type { DayFloor } from './dayFloor.ts';
import type { StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';

export class SafetyCheck {
  private readonly floor: DayFloor;
  private readonly slots: Int32Array;
  private readonly places: Int32Array;
  /** Basins that wait for a place, not yet home, by station. */
  private readonly waiting: Int32Array;
  // The basins on the floor, one entry each.
  private readonly visit: Int32Array;
  private readonly station: Int32Array;
  private readonly stop: Int32Array;
  private readonly hasPlace: Uint8Array;
  /** How many basins wait before it. */
  private readonly order: Int32Array;
  private readonly isHome: Uint8Array;
  private count = 0;

  constructor(floor: DayFloor) {
    const visits = floor.model.visitCount;
    const stations = floor.model.stations.length;
    this.floor = floor;
    this.slots = new Int32Array(stations);
    this.places = new Int32Array(stations);
    this.waiting = new Int32Array(stations);
    this.visit = new Int32Array(visits);
    this.station = new Int32Array(visits);
    this.stop = new Int32Array(visits);
    this.hasPlace = new Uint8Array(visits);
    this.order = new Int32Array(visits);
    this.isHome = new Uint8Array(visits);
  }

  /** True if the state is safe after `visit` has moved to its stop `within` at station `to`. */
  allows(visit: number, within: number, to: number): boolean {
    this.countBasins(visit, within, to);
    // A basin at its last stop with a place of its own can go home at once: the state is as safe as before.
    if (this.hasPlace[this.count - 1] === 1 && within + 1 === this.floor.model.stopCount[visit]) return true;
    let left = this.count;
    for (let moved = true; left > 0 && moved;) {
      moved = false;
      for (let i = 0; i < this.count; i++) {
        if (this.isHome[i] === 1 || !this.canWalkHome(i)) continue;
        this.sendHome(i);
        left--;
        moved = true;
      }
    }
    return left === 0;
  }

  private countBasins(visit: number, within: number, to: number): void {
    const { floor: { model, state, layout, givenUp } } = this;
    for (let s = 0; s < model.stations.length; s++) {
      const station = model.stations[s] as StationModel;
      this.slots[s] = station.slots;
      this.places[s] = station.slots === UNKNOWN ? UNKNOWN : station.places;
      this.waiting[s] = 0;
    }
    this.count = 0;
    for (let v = 0; v < model.visitCount; v++) {
      const s = state[layout.station + v] as number;
      if (s < 0 || v === visit) continue;
      const stop = givenUp[v] === 1 ? (model.stopCount[v] as number) - 1 : (state[layout.leg + v] as number) - 1;
      const isServed = (state[layout.place + v] as number) >= 0;
      this.stand(v, s, stop, isServed, isServed ? 0 : this.queueRank(s, v));
    }
    const queue = this.waiting[to] as number;
    this.stand(visit, to, within, queue === 0 && (this.places[to] as number) > 0, queue);
  }

  private queueRank(s: number, visit: number): number {
    const { floor: { state, layout } } = this;
    const base = layout.waiting + (layout.waitBase[s] as number);
    const count = state[layout.waitingCount + s] as number;
    let rank = 0;
    while (rank < count && state[base + rank] !== visit) rank++;
    return rank;
  }

  private stand(visit: number, s: number, stop: number, hasPlace: boolean, order: number): void {
    const i = this.count++;
    this.visit[i] = visit;
    this.station[i] = s;
    this.stop[i] = stop;
    this.hasPlace[i] = hasPlace ? 1 : 0;
    this.order[i] = order;
    this.isHome[i] = 0;
    this.slots[s] = (this.slots[s] as number) - 1;
    if (hasPlace) this.places[s] = (this.places[s] as number) - 1;
    else this.waiting[s] = (this.waiting[s] as number) + 1;
  }

  private canWalkHome(i: number): boolean {
    const { model, givenUp } = this.floor;
    const visit = this.visit[i] as number;
    const base = model.legBase[visit] as number;
    if (this.hasPlace[i] === 0 && givenUp[visit] === 0 && !this.getsPlace(i)) return false;
    for (let stop = (this.stop[i] as number) + 1; stop < (model.stopCount[visit] as number); stop++) {
      for (const before of model.after[base + stop] as readonly number[]) if (!this.willBeDone(before)) return false;
      if (!this.hasWayTo(base + stop, i)) return false;
    }
    return true;
  }

  private getsPlace(i: number): boolean {
    const s = this.station[i] as number;
    let before = 0;
    for (let j = 0; j < this.count; j++) {
      if (this.station[j] === s && this.hasPlace[j] === 0 && this.isHome[j] === 0 && (this.order[j] as number) < (this.order[i] as number)) before++;
    }
    return (this.places[s] as number) - before >= 1;
  }

  /** Whether some station that can do the work of the leg has room for basin i, its own room counted in. */
  private hasWayTo(leg: number, i: number): boolean {
    const { model } = this.floor;
    for (let a = model.altBase[leg] as number; a < (model.altBase[leg + 1] as number); a++) {
      const s = model.altStation[a] as number;
      const own = s === this.station[i] ? 1 : 0;
      const waits = (this.waiting[s] as number) - (own === 1 && this.hasPlace[i] === 0 ? 1 : 0);
      const place = (this.places[s] as number) + (own === 1 && this.hasPlace[i] === 1 ? 1 : 0);
      if ((this.slots[s] as number) + own >= 1 && place - waits >= 1) return true;
    }
    return false;
  }

  private willBeDone(leg: number): boolean {
    const { state, layout, model } = this.floor;
    if (state[layout.stopEnd + leg] !== UNKNOWN) return true;
    for (let j = 0; j < this.count; j++) if (this.isHome[j] === 1 && this.visit[j] === model.legVisit[leg]) return true;
    return false;
  }

  private sendHome(i: number): void {
    const s = this.station[i] as number;
    this.isHome[i] = 1;
    this.slots[s] = (this.slots[s] as number) + 1;
    if (this.hasPlace[i] === 1) this.places[s] = (this.places[s] as number) + 1;
    else this.waiting[s] = (this.waiting[s] as number) - 1;
  }
}
