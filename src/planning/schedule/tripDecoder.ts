/**
 * Lays out a day trip by trip. `consider` finds when, with which vehicle and to which station the next leg of a visit
 * can go after everything laid out so far; `commit` makes it so. A basin is lifted only when its goal is sure to be free
 * in time and, where routes cross, only while every basin on the floor can still get home (safeState.ts): a day that was
 * begun can always be brought to its end.
 */
import type { ChargingWay } from './batteryWay.ts';
import { chargeAfter, chargeToKeep, planCharge } from './batteryWay.ts';
import { BACK_SUM, BERTH_COST, DayFloor, EMPTY, FINISH, fitWork, LOADED } from './dayFloor.ts';
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';
import type { LeftOutCause } from './schedule.ts';
import { SafetyCheck } from './safeState.ts';
import { vehiclesAreFull } from './vehiclesAreFull.ts';

/** 'blocked': not yet; 'impossible': never, see `floor.culprit` and `floor.cause`. */
export type Consideration = 'ready' | 'blocked' | 'impossible';

/** The trip under consideration. */
export class TripCandidate {
  visit = -1;
  /** Numbered through all visits, and within the visit. */
  leg = -1;
  within = 0;
  readyS = 0;
  origin = 0;
  target = 0;
  /** -1: to the berth. */
  station = -1;
  /** Setting down does not begin before. */
  gateS = 0;
  vehicle = -1;
  pickS = 0;
  departS = 0;
  arriveS = 0;
  emptyS = 0;
  /** Likely end of the work there, or the arrival at the berth. */
  guessS = 0;
  berthLocation = -1;
  berthPlace = -1;
  berthReadyS = 0;
  berthCostS = 0;
  /** Over the charger; undefined: straight. */
  way: ChargingWay | undefined;
}

export class TripDecoder {
  readonly model: DayModel;
  readonly floor: DayFloor;
  readonly candidate = new TripCandidate();
  /** Chosen alternative and vehicle of each leg, -1: whichever is best at the moment. */
  readonly alternativeGene: Int16Array;
  readonly vehicleGene: Int16Array;
  private readonly hasBattery: boolean;
  private readonly safety: SafetyCheck;
  private readonly savesTime: boolean;

  constructor(model: DayModel) {
    this.model = model;
    this.floor = new DayFloor(model);
    this.safety = new SafetyCheck(this.floor);
    this.savesTime = vehiclesAreFull(model);
    this.alternativeGene = new Int16Array(model.legCount).fill(-1);
    this.vehicleGene = new Int16Array(model.legCount).fill(-1);
    this.hasBattery = model.problem.vehicles.some((v) => v.battery !== undefined);
  }

  isOver(visit: number): boolean {
    return (this.floor.state[this.floor.layout.leg + visit] as number) > (this.model.stopCount[visit] as number);
  }

  /** Finds the best way to make the next leg of the visit after all that is laid out. */
  consider(visit: number): Consideration {
    const { model, floor, candidate: c } = this;
    c.visit = visit;
    c.readyS = floor.readyToLiftS(visit);
    if (c.readyS === UNKNOWN) return 'blocked';
    c.within = floor.nextLeg(visit);
    c.leg = (model.legBase[visit] as number) + c.within;
    c.origin = floor.state[floor.layout.at + visit] as number;
    if (c.within === 0 && !this.sourcesAreUnderWay()) return this.block('waits for a visit left out');
    if (c.within === 0 && !this.keepBerth()) return this.block('no berth');
    if (c.within === model.stopCount[visit]) this.aimAtBerth();
    else if (!this.chooseStation()) return this.block('no station');
    if (this.chooseVehicle()) return 'ready';
    floor.blame(visit, 'no vehicle');
    return 'impossible';
  }

  /** The cause matters only if nothing else can be done either. */
  private block(cause: LeftOutCause): 'blocked' {
    this.floor.cause = cause;
    return 'blocked';
  }

  /** A basin that waits for others' work leaves its berth only when they have left theirs: so that they surely get on. */
  private sourcesAreUnderWay(): boolean {
    const { model, floor, candidate: c } = this;
    for (let t = c.leg; t < (model.legBase[c.visit + 1] as number); t++) {
      for (const before of model.after[t] as readonly number[]) {
        if (floor.state[floor.layout.leg + (model.legVisit[before] as number)] === 0) return false;
      }
    }
    return true;
  }

  /** A basin leaves only when a berth for its return is sure to be free; that place is then kept for it. */
  private keepBerth(): boolean {
    const { model, floor: { state, layout }, candidate: c } = this;
    for (const choice of model.ends[c.visit] as DayModel['ends'][number]) {
      const berth = model.berthOf[choice.location] as number;
      c.berthLocation = choice.location;
      c.berthCostS = choice.costS;
      c.berthPlace = -1;
      c.berthReadyS = 0;
      if (berth < 0 || choice.location === c.origin) return true;
      const to = layout.berthFree + (layout.berthBase[berth + 1] as number);
      for (let p = layout.berthFree + (layout.berthBase[berth] as number); p < to; p++) {
        if (state[p] === UNKNOWN) continue;
        c.berthPlace = p;
        c.berthReadyS = state[p] as number;
        return true;
      }
    }
    return false;
  }

  private aimAtBerth(): void {
    const { floor: { state, layout }, candidate: c } = this;
    c.station = -1;
    c.target = state[layout.berth + c.visit] as number;
    c.gateS = state[layout.berthReady + c.visit] as number;
  }

  /** Takes the station where the work is likely done first; later ones of the list only when truly earlier. */
  private chooseStation(): boolean {
    const { model, floor, candidate: c } = this;
    const afterS = floor.orderGateS(c.leg);
    if (afterS === UNKNOWN) return false;
    const gene = this.alternativeGene[c.leg] as number;
    const first = (model.altBase[c.leg] as number) + Math.max(0, gene);
    const last = gene >= 0 ? first + 1 : (model.altBase[c.leg + 1] as number);
    c.station = -1;
    c.guessS = UNKNOWN;
    for (let a = first; a < last; a++) {
      const s = model.altStation[a] as number;
      const slotS = floor.slotFreeS(s);
      if (slotS === UNKNOWN) continue;
      const endS = this.guessEndS(a, s, Math.max(slotS, afterS));
      if (endS >= c.guessS || (model.routesCycle && !this.safety.allows(c.visit, c.within, s))) continue;
      c.station = s;
      c.guessS = endS;
      c.gateS = Math.max(slotS, afterS);
    }
    if (c.station < 0) return false;
    c.target = (model.stations[c.station] as StationModel).location;
    return true;
  }

  private guessEndS(alternative: number, s: number, gateS: number): number {
    const { model, floor, candidate: c } = this;
    const station = model.stations[s] as StationModel;
    const travel = model.loadedS[c.origin * model.locationCount + station.location] as number;
    const service = model.altServiceS[alternative] as number;
    const from = Math.max(c.readyS + travel, gateS, floor.placeGuessS(s), model.notBeforeS[c.leg] as number);
    const start = fitWork(station.open, from, service);
    return start === UNKNOWN ? UNKNOWN - 1 : start + service;
  }

  /**
   * Takes the vehicle that can lift first; of several, where vehicles are scarce, the one that loses least time until then
   * (the others may be of use meanwhile), else the one with the shortest empty way.
   */
  private chooseVehicle(): boolean {
    const { model, floor: { state, layout }, candidate: c } = this;
    const n = model.locationCount;
    const loaded = model.loadedS[c.origin * n + c.target] as number;
    const gene = this.vehicleGene[c.leg] as number;
    const last = gene >= 0 ? gene + 1 : model.vehicleCount;
    c.vehicle = -1;
    c.pickS = UNKNOWN;
    let bestCostS = Infinity;
    for (let k = Math.max(0, gene); k < last; k++) {
      const empty = model.emptyS[(state[layout.vehicleAt + k] as number) * n + c.origin] as number;
      let there = (state[layout.vehicleFree + k] as number) + empty;
      let way: ChargingWay | undefined;
      if (this.hasBattery && this.mustCharge(k, loaded)) {
        way = this.wayOverCharger(k, loaded);
        if (way === undefined) continue;
        there = way.thereS;
      }
      const pick = Math.max(there, c.readyS, c.gateS - loaded - (model.pickS[k] as number));
      const freeS = state[layout.vehicleFree + k] as number;
      const costS = this.savesTime ? -freeS : empty;
      if (pick > c.pickS || (pick === c.pickS && costS >= bestCostS)) continue;
      bestCostS = costS;
      const arrive = pick + (model.pickS[k] as number) + loaded + (model.dropS[k] as number);
      if (arrive > (model.vehicleToS[k] as number)) continue;
      c.vehicle = k;
      c.pickS = pick;
      c.emptyS = empty;
      c.arriveS = arrive;
      c.way = way;
    }
    c.departS = c.pickS + (model.pickS[c.vehicle] as number);
    return c.vehicle >= 0;
  }

  /** Lays out the considered trip. False when it makes the visit of `floor.culprit` impossible; the state is then void. */
  commit(): boolean {
    const { floor, candidate: c } = this;
    this.moveVehicle();
    if (c.within === 0) this.leaveBerth();
    else if (!floor.takeAway(c.visit, this.legBefore(), c.departS)) return false;
    floor.state[floor.layout.leg + c.visit] = c.within + 1;
    floor.state[floor.layout.at + c.visit] = c.target;
    return c.station < 0 ? this.reachBerth() : floor.setDown(c.visit, c.leg, c.station, c.arriveS);
  }

  /** The leg that brought the basin to where it stands; legs that were given up lie in between. */
  private legBefore(): number {
    const { floor, model, candidate: c } = this;
    return (model.legBase[c.visit] as number) + (floor.state[floor.layout.leg + c.visit] as number) - 1;
  }

  /** Lifting, carrying and setting down. */
  private workS(k: number, loadedS: number): number {
    return (this.model.pickS[k] as number) + loadedS + (this.model.dropS[k] as number);
  }

  private mustCharge(k: number, loadedS: number): boolean {
    const battery = this.model.problem.vehicles[k]?.battery;
    if (battery === undefined) return false;
    return chargeAfter(this.floor, k, this.candidate.origin, this.workS(k, loadedS)) < chargeToKeep(this.floor, battery, this.candidate.target);
  }

  private wayOverCharger(k: number, loadedS: number): ChargingWay | undefined {
    const battery = this.model.problem.vehicles[k]?.battery;
    const { origin, target } = this.candidate;
    return battery === undefined ? undefined : planCharge(this.floor, k, battery, origin, target, this.workS(k, loadedS));
  }

  private moveVehicle(): void {
    const { floor, model, candidate: c } = this;
    const { state, layout, legs, totals } = floor;
    const k = c.vehicle;
    const loaded = model.loadedS[c.origin * model.locationCount + c.target] as number;
    legs.vehicle[c.leg] = k;
    legs.from[c.leg] = c.origin;
    legs.to[c.leg] = c.target;
    legs.station[c.leg] = c.station;
    legs.pickS[c.leg] = c.pickS;
    legs.departS[c.leg] = c.departS;
    legs.arriveS[c.leg] = c.arriveS;
    legs.emptyFrom[c.leg] = state[layout.vehicleAt + k] as number;
    legs.emptyDepartS[c.leg] = c.pickS - c.emptyS;
    legs.chargeToS[c.leg] = 0;
    let empty = c.emptyS;
    if (this.hasBattery) state[layout.charge + k] = c.way?.chargeLeftS ?? chargeAfter(floor, k, c.origin, this.workS(k, loaded));
    if (c.way !== undefined) empty = this.noteCharge(c.way);
    state[layout.vehicleAt + k] = c.target;
    state[layout.vehicleFree + k] = c.arriveS;
    totals[EMPTY] = (totals[EMPTY] as number) + empty;
    totals[LOADED] = (totals[LOADED] as number) + loaded;
  }

  private noteCharge(way: ChargingWay): number {
    const { floor: { legs }, candidate: c } = this;
    legs.chargeFrom[c.leg] = legs.emptyFrom[c.leg] as number;
    legs.emptyFrom[c.leg] = way.charger;
    legs.emptyDepartS[c.leg] = c.pickS - way.fromChargerS;
    legs.chargeDepartS[c.leg] = way.fromS - way.toChargerS;
    legs.chargeFromS[c.leg] = way.fromS;
    legs.chargeToS[c.leg] = way.toS;
    return way.toChargerS + way.fromChargerS;
  }

  private leaveBerth(): void {
    const { model, floor: { state, layout, totals }, candidate: c } = this;
    state[layout.berth + c.visit] = c.berthLocation;
    state[layout.berthReady + c.visit] = c.berthReadyS;
    totals[BERTH_COST] = (totals[BERTH_COST] as number) + c.berthCostS;
    const own = model.berthOf[c.origin] as number;
    if (c.berthPlace >= 0) state[c.berthPlace] = UNKNOWN;
    if (own < 0 || c.berthLocation === c.origin) return;
    for (let p = layout.berthFree + (layout.berthBase[own] as number); ; p++) {
      if (state[p] !== UNKNOWN) continue;
      state[p] = c.departS;
      return;
    }
  }

  private reachBerth(): boolean {
    const { model, floor, candidate: c } = this;
    const { totals } = floor;
    if (c.arriveS > (model.deadlineS[c.visit] as number) && floor.givenUp[c.visit] === 0) return floor.blame(c.visit, 'deadline');
    floor.countLate(c.visit, c.arriveS - (model.dueS[c.visit] as number));
    totals[FINISH] = Math.max(totals[FINISH] as number, c.arriveS);
    totals[BACK_SUM] = (totals[BACK_SUM] as number) + c.arriveS;
    return true;
  }
}
