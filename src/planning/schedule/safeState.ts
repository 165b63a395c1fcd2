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
import type { DayModel, StationModel } from './dayModel.ts';
import { UNKNOWN } from './dayModel.ts';

/** True if the state is safe after `visit` has moved to its stop `within` at station `to`. */
export function keepsEveryWayHome(floor: DayFloor, visit: number, within: number, to: number): boolean {
  const floorNow = countHolders(floor, visit, within, to);
  let left = floorNow.basins.length;
  let moved = true;
  while (left > 0 && moved) {
    moved = false;
    for (const basin of floorNow.basins) {
      if (basin.home || !canWalkHome(floor, floorNow, basin)) continue;
      sendHome(floorNow, basin);
      left--;
      moved = true;
    }
  }
  return left === 0;
}

interface Standing {
  readonly visit: number;
  readonly station: number;
  /** Stop it stands at, counted within the visit. */
  readonly stop: number;
  readonly hasPlace: boolean;
  /** How many waiting basins have to be served before it. */
  readonly order: number;
  home: boolean;
}

interface Holders {
  readonly basins: Standing[];
  readonly slots: number[];
  readonly places: number[];
  readonly waiting: Standing[][];
}

function countHolders(floor: DayFloor, visit: number, within: number, to: number): Holders {
  const { model, state, layout } = floor;
  const holders: Holders = {
    basins: [], slots: model.stations.map((s) => s.slots), places: model.stations.map((s) => s.places),
    waiting: model.stations.map(() => []),
  };
  for (let v = 0; v < model.visitCount; v++) {
    const station = state[layout.station + v] as number;
    if (station < 0 || v === visit) continue;
    const stop = floor.givenUp[v] === 1 ? (model.stopCount[v] as number) - 1 : (state[layout.leg + v] as number) - 1;
    const served = (state[layout.place + v] as number) >= 0;
    stand(holders, model, { visit: v, station, stop, hasPlace: served, order: served ? 0 : queueRank(floor, station, v), home: false });
  }
  const full = (holders.places[to] as number) <= 0;
  const order = (holders.waiting[to] as Standing[]).length;
  stand(holders, model, { visit, station: to, stop: within, hasPlace: !full && order === 0, order, home: false });
  return holders;
}

function queueRank(floor: DayFloor, station: number, visit: number): number {
  const { state, layout } = floor;
  const base = layout.waiting + (layout.waitBase[station] as number);
  let rank = 0;
  const count = state[layout.waitingCount + station] as number;
  while (rank < count && state[base + rank] !== visit) rank++;
  return rank;
}

function stand(holders: Holders, model: DayModel, basin: Standing): void {
  holders.basins.push(basin);
  if ((model.stations[basin.station] as StationModel).slots === UNKNOWN) return;
  holders.slots[basin.station] = (holders.slots[basin.station] as number) - 1;
  if (basin.hasPlace) holders.places[basin.station] = (holders.places[basin.station] as number) - 1;
  else (holders.waiting[basin.station] as Standing[]).push(basin);
}

function canWalkHome(floor: DayFloor, holders: Holders, basin: Standing): boolean {
  const { model } = floor;
  const base = model.legBase[basin.visit] as number;
  const unlimited = (s: number): boolean => (model.stations[s] as StationModel).slots === UNKNOWN;
  if (!basin.hasPlace && !unlimited(basin.station) && floor.givenUp[basin.visit] === 0) {
    const before = (holders.waiting[basin.station] as Standing[]).filter((b) => !b.home && b.order < basin.order).length;
    if ((holders.places[basin.station] as number) - before < 1) return false;
  }
  for (let stop = basin.stop + 1; stop < (model.stopCount[basin.visit] as number); stop++) {
    if (!(model.after[base + stop] as readonly number[]).every((leg) => willBeDone(floor, holders, leg))) return false;
    let open = false;
    for (let a = model.altBase[base + stop] as number; a < (model.altBase[base + stop + 1] as number); a++) {
      const s = model.altStation[a] as number;
      const waiting = (holders.waiting[s] as Standing[]).filter((b) => !b.home && b !== basin).length;
      const own = s === basin.station ? 1 : 0;
      const ownPlace = own === 1 && basin.hasPlace ? 1 : 0;
      open ||= unlimited(s) || ((holders.slots[s] as number) + own >= 1 && (holders.places[s] as number) + ownPlace - waiting >= 1);
    }
    if (!open) return false;
  }
  return true;
}

function willBeDone(floor: DayFloor, holders: Holders, leg: number): boolean {
  if ((floor.state[floor.layout.stopEnd + leg] as number) !== UNKNOWN) return true;
  const source = floor.model.legVisit[leg] as number;
  return holders.basins.some((b) => b.visit === source && b.home);
}

function sendHome(holders: Holders, basin: Standing): void {
  basin.home = true;
  holders.slots[basin.station] = (holders.slots[basin.station] as number) + 1;
  if (basin.hasPlace) holders.places[basin.station] = (holders.places[basin.station] as number) + 1;
}
