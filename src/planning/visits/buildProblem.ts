import { shortestTravel } from '../../greenhouse/travel.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { Floor } from '../../greenhouse/state.ts';
import type { ShiftDay } from '../day/shiftDay.ts';
import type { ScheduleProblem, ScheduleStation, ScheduleVisit } from '../schedule/scheduleProblem.ts';
import type { DraftVisit } from './draftVisit.ts';
import { serviceS } from './stationTimes.ts';

/** The question for the scheduler, with what is needed to read its answer. */
export interface BuiltProblem {
  readonly problem: ScheduleProblem;
  readonly places: readonly string[];
  readonly metres: readonly Float64Array[];
  /** Visits that cannot even be asked for, and why. */
  readonly impossible: readonly { readonly draft: DraftVisit; readonly reason: string }[];
}

const NO_WAY = 1e6;

/** Seconds from the start of the shift, rounded up. */
export const shiftS = (day: ShiftDay, ms: number): number => Math.ceil((ms - day.startMs) / 1000);

/**
 * Visits, stations and vehicles as a scheduling problem in whole seconds. Travel takes the way and the speed of the slowest
 * vehicle; vehicles stand at home when the shift starts. Nothing happens before the instant that the plan is made for.
 */
export function buildProblem(drafts: readonly DraftVisit[], file: GreenhouseFile, floor: Floor, day: ShiftDay, weightLimitKg: number): BuiltProblem {
  const nodeOfBerth = new Map(floor.berths.map(({ id, node }) => [id, node]));
  const possible: DraftVisit[] = [];
  const impossible: { draft: DraftVisit; reason: string }[] = [];
  for (const draft of drafts) {
    const reason = whyImpossible(draft, file, nodeOfBerth, weightLimitKg);
    if (reason === undefined) possible.push(draft); else impossible.push({ draft, reason });
  }
  const places = [...new Set([...file.stations.map(({ node }) => node), ...file.vehicles.map(({ home }) => home), ...possible.flatMap((draft) => [draft.startNode, nodeOfBerth.get(draft.toBerth)!])])];
  const { metres } = shortestTravel(floor, places);
  const at = new Map(places.map((place, i) => [place, i]));
  // Where no way leads, a way that no shift is long enough for.
  const seconds = (speedMS: number) => metres.map((row) => Array.from(row, (m) => Math.min(NO_WAY, Math.ceil(m / speedMS))));
  const nowS = Math.max(0, shiftS(day, day.atMs));
  const endS = shiftS(day, day.endMs);
  return {
    places, metres, impossible,
    problem: {
      locations: places,
      travelEmptyS: seconds(Math.min(...file.vehicles.map((vehicle) => vehicle.speedEmptyMS))),
      travelLoadedS: seconds(Math.min(...file.vehicles.map((vehicle) => vehicle.speedLoadedMS))),
      travelM: metres.map((row) => Array.from(row, (m) => Math.min(NO_WAY, m))),
      stations: file.stations.map((station): ScheduleStation => ({
        id: station.id, kind: station.kind, location: at.get(station.node)!, places: station.places, queuePlaces: station.queuePlaces,
        openFromS: Math.min(nowS, endS), openToS: endS, breaks: day.breaks.map(({ fromMs, toMs }) => ({ fromS: shiftS(day, fromMs), toS: shiftS(day, toMs) })),
      })),
      vehicles: file.vehicles.map((vehicle) => ({
        id: vehicle.id, startLocation: at.get(vehicle.home)!, availableFromS: Math.min(nowS, endS), availableToS: endS, pickS: Math.ceil(vehicle.pickS), dropS: Math.ceil(vehicle.dropS),
      })),
      visits: possible.map((draft) => toScheduleVisit(draft, file, at, nodeOfBerth, day, nowS)),
    },
  };
}

function whyImpossible(draft: DraftVisit, file: GreenhouseFile, nodeOfBerth: ReadonlyMap<string, string>, weightLimitKg: number): string | undefined {
  const missing = draft.stops.find(({ kind }) => !file.stations.some((station) => station.kind === kind));
  if (missing !== undefined) return `the greenhouse has no ${missing.kind} station`;
  if (nodeOfBerth.get(draft.toBerth) === undefined) return `its berth ${draft.toBerth} is not on the floor`;
  const weightKg = heaviestKg(draft);
  return weightKg > weightLimitKg ? `it weighs ${Math.round(weightKg)} kg and a vehicle carries at most ${weightLimitKg} kg` : undefined;
}

/** Heaviest that the basin is on this trip. */
export function heaviestKg(draft: DraftVisit): number {
  const { type } = draft.view.basin;
  const presentL = draft.view.water.known ? draft.view.water.solution.volumeL : 0;
  const filledL = draft.stops.reduce((most, stop) => Math.max(most, stop.feed?.after.volumeL ?? 0), 0);
  return type.emptyKg + type.rafts * type.raftKg + Math.max(presentL, filledL);
}

function toScheduleVisit(draft: DraftVisit, file: GreenhouseFile, at: ReadonlyMap<string, number>, nodeOfBerth: ReadonlyMap<string, string>, day: ShiftDay, nowS: number): ScheduleVisit {
  return {
    id: draft.visit, basin: draft.view.basin.id, startLocation: at.get(draft.startNode)!, endLocation: at.get(nodeOfBerth.get(draft.toBerth)!)!,
    releaseS: nowS, priority: draft.priority, must: draft.urgency === 'must', why: draft.needs.map(({ reason }) => reason).join('; '),
    stops: draft.stops.map((stop) => {
      const ofKind = file.stations.filter(({ kind }) => kind === stop.kind);
      const others = ofKind.filter(({ id }) => !stop.avoid.includes(id));
      return {
        alternatives: (others.length > 0 ? others : ofKind).map((station) => ({ station: station.id, serviceS: serviceS(station, stop) })),
        ...(stop.endByMs === undefined ? {} : { endByS: Math.floor((stop.endByMs - day.startMs) / 1000) }),
        ...(stop.after === undefined ? {} : { after: stop.after }),
      };
    }),
  };
}
