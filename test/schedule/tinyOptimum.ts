/**
 * The shortest finish of a tiny day by trying every order of trips, every vehicle and every station: exact for stations
 * that either have unlimited waiting places or none (then the order of service is the order of coming, or free).
 * Independent of the planner: its own floor, its own times. Visits without windows, crews, batteries and limited berths.
 */
import type { ScheduleProblem } from '../../src/planning/schedule/scheduleProblem.ts';

interface Basin { readonly leg: number; readonly at: number; readonly readyS: number; readonly station: number; readonly place: number }
interface Floor {
  readonly vehicles: readonly { readonly at: number; readonly freeS: number }[];
  /** For each station the times at which its places are free; Infinity while a basin stands there. */
  readonly places: readonly (readonly number[])[];
  readonly basins: readonly Basin[];
}

export function shortestFinish(problem: ScheduleProblem): number {
  let best = Infinity;
  const search = (floor: Floor, latestS: number): void => {
    if (latestS >= best) return;
    if (floor.basins.every((b, i) => b.leg > (problem.visits[i]?.stops.length ?? 0))) {
      best = latestS;
      return;
    }
    floor.basins.forEach((basin, i) => {
      for (const next of movesOf(problem, floor, i, basin)) search(next.floor, Math.max(latestS, next.arriveS));
    });
  };
  search({
    vehicles: problem.vehicles.map((v) => ({ at: v.startLocation, freeS: v.availableFromS })),
    places: problem.stations.map((s) => new Array<number>(s.places).fill(0)),
    basins: problem.visits.map((v) => ({ leg: 0, at: v.startLocation, readyS: v.releaseS, station: -1, place: -1 })),
  }, 0);
  return best;
}

interface Move { readonly floor: Floor; readonly arriveS: number }

function movesOf(problem: ScheduleProblem, floor: Floor, i: number, basin: Basin): Move[] {
  const visit = problem.visits[i];
  if (visit === undefined || basin.leg > visit.stops.length) return [];
  const moves: Move[] = [];
  problem.vehicles.forEach((_, k) => {
    const stop = visit.stops[basin.leg];
    if (stop === undefined) moves.push(carry(problem, floor, i, k, -1, 0, -1));
    for (const { station, serviceS } of stop?.alternatives ?? []) {
      const s = problem.stations.findIndex((one) => one.id === station);
      const times = floor.places[s] ?? [];
      times.forEach((freeS, place) => { if (freeS < Infinity) moves.push(carry(problem, floor, i, k, s, serviceS, place)); });
    }
  });
  return moves;
}

function carry(problem: ScheduleProblem, floor: Floor, i: number, k: number, s: number, serviceS: number, place: number): Move {
  const basin = floor.basins[i] as Basin;
  const vehicle = problem.vehicles[k] as ScheduleProblem['vehicles'][number];
  const state = floor.vehicles[k] as Floor['vehicles'][number];
  const station = problem.stations[s];
  const to = station?.location ?? (problem.visits[i] as ScheduleProblem['visits'][number]).endLocation;
  const loadedS = problem.travelLoadedS[basin.at]?.[to] as number;
  const blocks = station !== undefined && station.queuePlaces === 0;
  const freeS = s < 0 ? 0 : (floor.places[s]?.[place] as number);
  const thereS = state.freeS + (problem.travelEmptyS[state.at]?.[basin.at] as number);
  const pickS = Math.max(thereS, basin.readyS, blocks ? freeS - loadedS - vehicle.pickS : 0);
  const departS = pickS + vehicle.pickS;
  const arriveS = departS + loadedS + vehicle.dropS;
  const endS = Math.max(arriveS, freeS) + serviceS;
  const places = floor.places.map((times, n) => times.map((time, p) => {
    if (n === basin.station && p === basin.place && time === Infinity && !(n === s && p === place)) return departS;
    return n === s && p === place ? (blocks ? Infinity : endS) : time;
  }));
  const vehicles = floor.vehicles.map((v, n) => (n === k ? { at: to, freeS: arriveS } : v));
  const basins = floor.basins.map((b, n) => (n === i ? { leg: b.leg + 1, at: to, readyS: endS, station: s, place } : b));
  return { floor: { vehicles, places, basins }, arriveS };
}
