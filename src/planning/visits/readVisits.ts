import type { ApprovedVisit } from '../../greenhouse/events.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import { toInstant, type ShiftDay } from '../day/shiftDay.ts';
import type { PlannedStop, PlannedTrip, PlannedVisit, Timeline } from '../morningPlan.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { BuiltProblem } from './buildProblem.ts';
import { heaviestKg } from './buildProblem.ts';
import { accountOf } from './accountOf.ts';
import type { DraftVisit } from './draftVisit.ts';
import type { DoneStop } from './shiftSoFar.ts';
import { describeVisit } from './visitWords.ts';

const atS = (day: ShiftDay, seconds: number): string => toInstant(day.startMs + seconds * 1000);

/** The schedule's answer as visits with UTC times, in the order in which basins leave their berths. */
export function readVisits(schedule: Schedule, drafts: readonly DraftVisit[], built: BuiltProblem, day: ShiftDay, file: GreenhouseFile): PlannedVisit[] {
  const byId = new Map(drafts.map((draft) => [draft.visit, draft]));
  return schedule.visits.map((outcome) => readVisit(byId.get(outcome.visit)!, outcome.leavesS, outcome.backS, schedule, built, day, file))
    .sort((a, b) => (a.leavesBerthAt < b.leavesBerthAt ? -1 : a.leavesBerthAt > b.leavesBerthAt ? 1 : a.visit < b.visit ? -1 : 1));
}

function readVisit(draft: DraftVisit, leavesS: number, backS: number, schedule: Schedule, built: BuiltProblem, day: ShiftDay, file: GreenhouseFile): PlannedVisit {
  const { view } = draft;
  const stops = schedule.stops.filter(({ visit }) => visit === draft.visit).sort((a, b) => a.stop - b.stop).map((stop): PlannedStop => ({
    stop: draft.stops[stop.stop]!.number, kind: draft.stops[stop.stop]!.kind, station: stop.station, arriveAt: atS(day, stop.arriveS), startAt: atS(day, stop.startS), endAt: atS(day, stop.endS),
  }));
  const trips = schedule.trips.filter(({ visit }) => visit === draft.visit).sort((a, b) => a.leg - b.leg).map((trip): PlannedTrip => ({
    vehicle: trip.vehicle, from: built.places[trip.from]!, to: built.places[trip.to]!, emptyFrom: built.places[trip.emptyFrom]!,
    emptyDepartAt: atS(day, trip.emptyDepartS), pickAt: atS(day, trip.pickS), departAt: atS(day, trip.departS), arriveAt: atS(day, trip.arriveS),
  }));
  const approved: ApprovedVisit = {
    visit: draft.visit, basin: view.basin.id, fromBerth: view.basin.berth, toBerth: draft.toBerth,
    ...(trips[0] === undefined ? {} : { vehicleFirst: trips[0].vehicle }),
    trips: trips.map(({ vehicle, pickAt, arriveAt }, leg) => ({ leg: leg + (draft.done?.length ?? 0), vehicle, pickAt, arriveAt })),
    stops: stops.map((stop) => ({ stop: stop.stop, kind: stop.kind, station: stop.station, startAt: stop.startAt, endAt: stop.endAt, effect: draft.stops.find(({ number }) => number === stop.stop)!.effect })),
    ...(stops.every(({ kind }) => kind === 'imaging') ? {} : accountOf(view.water, day.atMs)),
  };
  return {
    visit: draft.visit, basin: view.basin.id, ...lotOf(draft), urgency: draft.urgency, what: describeVisit(draft, file), reason: draft.needs.map(({ reason }) => reason).join('; '),
    fromBerth: view.basin.berth, toBerth: draft.toBerth, stops: [...(draft.done ?? []).map(readDoneStop), ...stops], trips, leavesBerthAt: atS(day, leavesS), backAt: atS(day, backS),
    ...(draft.stops.some(({ feed }) => feed !== undefined) ? { feedTicket: ticketName(draft.visit) } : {}), weightKg: Math.round(heaviestKg(draft)), approved,
  };
}

/** A stop that is behind us: planned start, real end. */
export const readDoneStop = ({ stop, outcome }: DoneStop): PlannedStop => ({
  stop: stop.stop, kind: stop.kind as PlannedStop['kind'], station: stop.station, arriveAt: stop.startAt, startAt: stop.startAt, endAt: outcome.at, result: outcome.result,
});

export const ticketName = (visit: string): string => `feed-${visit}`;

function lotOf({ view, needs }: DraftVisit): { lot?: string; crop?: string } {
  const move = needs.find((need) => need.move !== undefined)?.move;
  if (view.basin.planting !== undefined) return { lot: view.basin.planting.lot, crop: view.basin.planting.crop };
  return move === undefined ? {} : { lot: move.lot, crop: move.crop };
}

/** How busy stations and vehicles are, and how good the finish is against its bound. */
export function readTimeline(schedule: Schedule, built: BuiltProblem, file: GreenhouseFile, day: ShiftDay): Timeline {
  const spanS = Math.max(1, schedule.finishS - Math.max(0, Math.ceil((day.atMs - day.startMs) / 1000)));
  const workS = (station: string) => schedule.stops.filter((stop) => stop.station === station).reduce((sum, stop) => sum + stop.endS - stop.startS, 0);
  const share = (value: number) => Math.round(Math.min(1, value) * 1000) / 1000;
  return {
    startAt: atS(day, 0), finishAt: atS(day, schedule.finishS), boundAt: atS(day, schedule.bound.finishS), gapPct: Math.round(schedule.gapPct * 10) / 10,
    binds: schedule.bound.binds, bounds: schedule.bound.parts,
    stations: file.stations.map((station) => ({ id: station.id, title: station.title, kind: station.kind, places: station.places, crew: station.crew, busyShare: share(workS(station.id) / spanS / station.places) })),
    vehicles: file.vehicles.map((vehicle) => {
      const trips = schedule.trips.filter((trip) => trip.vehicle === vehicle.id);
      const busyS = trips.reduce((sum, trip) => sum + trip.arriveS - trip.emptyDepartS, 0);
      const metres = (of: (trip: (typeof trips)[number]) => number) => Math.round(trips.reduce((sum, trip) => sum + of(trip), 0));
      return {
        id: vehicle.id, title: vehicle.title, busyShare: share(busyS / spanS),
        emptyM: metres((trip) => built.metres[trip.emptyFrom]![trip.from]!), loadedM: metres((trip) => built.metres[trip.from]![trip.to]!),
      };
    }),
  };
}
