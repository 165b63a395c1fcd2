/** The schedule in the words of the problem, read from a day that was laid out. */
import type { DayChoice } from './dayChoice.ts';
import { UNKNOWN } from './dayModel.ts';
import type { LeftOutCause, LeftOutVisit, VisitOutcome } from './schedule.ts';
import type { ScheduledCharge, ScheduledStop, ScheduledTrip, ScheduleVisit } from './scheduleProblem.ts';
import type { TripDecoder } from './tripDecoder.ts';

export interface LaidOut {
  readonly trips: readonly ScheduledTrip[];
  readonly stops: readonly ScheduledStop[];
  readonly charges: readonly ScheduledCharge[];
  readonly visits: readonly VisitOutcome[];
  readonly leftOut: readonly LeftOutVisit[];
  readonly finishS: number;
  readonly emptyTravelS: number;
  readonly loadedTravelS: number;
}

export function readSchedule(decoder: TripDecoder, choice: DayChoice): LaidOut {
  const { model } = decoder;
  const trips: ScheduledTrip[] = [];
  const stops: ScheduledStop[] = [];
  const charges: ScheduledCharge[] = [...(model.problem.frozen?.charges ?? [])];
  for (let t = 0; t < model.legCount; t++) {
    if (!wasMade(decoder, t)) continue;
    trips.push(readTrip(decoder, t));
    if ((decoder.floor.legs.chargeToS[t] as number) > 0) charges.push(readCharge(decoder, t));
    if (wasServed(decoder, t)) stops.push(readStop(decoder, t));
  }
  trips.sort((a, b) => a.pickS - b.pickS || compareText(a.vehicle, b.vehicle));
  stops.sort((a, b) => a.startS - b.startS || compareText(a.station, b.station) || compareText(a.visit, b.visit));
  charges.sort((a, b) => a.fromS - b.fromS || compareText(a.vehicle, b.vehicle));
  const visits = [...model.problem.visits.keys()].filter((v) => decoder.isOver(v)).map((v) => readOutcome(decoder, v));
  const leftOut = [...model.problem.visits.keys()].filter((v) => choice.isDropped(v)).map((v) => readLeftOut(decoder, choice, v));
  const travel = (matrix: readonly (readonly number[])[], pairs: readonly (readonly [number, number])[]): number =>
    pairs.reduce((sum, [from, to]) => sum + (matrix[from]?.[to] as number), 0);
  const emptyWays = [
    ...trips.map((trip) => [trip.emptyFrom, trip.from] as const), ...charges.map((charge) => [charge.emptyFrom, charge.location] as const)];
  return {
    trips, stops, charges, visits, leftOut,
    finishS: visits.reduce((latest, visit) => Math.max(latest, visit.backS), 0),
    emptyTravelS: travel(model.problem.travelEmptyS, emptyWays),
    loadedTravelS: travel(model.problem.travelLoadedS, trips.map((trip) => [trip.from, trip.to] as const)),
  };
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** The last leg of a visit that was given up follows on the one that was under way; those in between were not made. */
function wasMade(decoder: TripDecoder, t: number): boolean {
  const { model, floor } = decoder;
  const v = model.legVisit[t] as number;
  const within = t - (model.legBase[v] as number);
  if (within >= (floor.state[floor.layout.leg + v] as number)) return false;
  return floor.givenUp[v] === 0 || (floor.legs.vehicle[t] as number) >= 0;
}

/** Whether work was done at the end of the leg: not on the way to the berth, and not where the basin waited in vain. */
function wasServed(decoder: TripDecoder, t: number): boolean {
  return (decoder.floor.legs.station[t] as number) >= 0 && (decoder.floor.state[decoder.floor.layout.stopEnd + t] as number) !== UNKNOWN;
}

function visitOf(decoder: TripDecoder, v: number): ScheduleVisit {
  return decoder.model.problem.visits[v] as ScheduleVisit;
}

function readTrip(decoder: TripDecoder, t: number): ScheduledTrip {
  const { model, floor: { legs } } = decoder;
  const v = model.legVisit[t] as number;
  const station = model.stations[legs.station[t] as number];
  return {
    vehicle: model.problem.vehicles[legs.vehicle[t] as number]?.id as string,
    visit: visitOf(decoder, v).id,
    leg: t - (model.legBase[v] as number),
    from: legs.from[t] as number, to: legs.to[t] as number,
    ...(station === undefined ? {} : { toStation: station.id }),
    emptyFrom: legs.emptyFrom[t] as number, emptyDepartS: legs.emptyDepartS[t] as number,
    pickS: legs.pickS[t] as number, departS: legs.departS[t] as number, arriveS: legs.arriveS[t] as number,
  };
}

function readCharge(decoder: TripDecoder, t: number): ScheduledCharge {
  const { model, floor: { legs } } = decoder;
  const vehicle = model.problem.vehicles[legs.vehicle[t] as number];
  return {
    vehicle: vehicle?.id as string,
    location: legs.emptyFrom[t] as number,
    emptyFrom: legs.chargeFrom[t] as number, emptyDepartS: legs.chargeDepartS[t] as number,
    fromS: legs.chargeFromS[t] as number, toS: legs.chargeToS[t] as number,
  };
}

function readStop(decoder: TripDecoder, t: number): ScheduledStop {
  const { model, floor: { legs } } = decoder;
  const v = model.legVisit[t] as number;
  const leaveS = legs.leaveS[t] as number;
  return {
    visit: visitOf(decoder, v).id,
    stop: t - (model.legBase[v] as number),
    station: model.stations[legs.station[t] as number]?.id as string,
    arriveS: legs.arriveS[t] as number, startS: legs.startS[t] as number, endS: legs.endS[t] as number,
    ...(leaveS === UNKNOWN ? {} : { leaveS }),
  };
}

function readOutcome(decoder: TripDecoder, v: number): VisitOutcome {
  const { model, floor: { legs, state, layout } } = decoder;
  const visit = visitOf(decoder, v);
  const last = (model.legBase[v + 1] as number) - 1;
  return {
    visit: visit.id, basin: visit.basin,
    leavesS: legs.departS[model.legBase[v] as number] as number,
    backS: legs.arriveS[last] as number,
    endLocation: legs.to[last] as number,
    latenessS: state[layout.late + v] as number,
  };
}

function readLeftOut(decoder: TripDecoder, choice: DayChoice, v: number): LeftOutVisit {
  const visit = visitOf(decoder, v);
  const cause = choice.cause[v] as LeftOutCause;
  const stopsMade = choice.stopsBegun(v);
  const stays = choice.isUnderWay(v) && choice.leftOut[v] === 1;
  const goesHome = choice.isUnderWay(v) && !stays;
  const after = goesHome ? ` After ${stopsMade} of ${visit.stops.length} stops the basin goes to its berth.`
    : stays ? ' The basin stays where it is, since no vehicle can bring it home in this shift.' : '';
  return { visit: visit.id, basin: visit.basin, must: visit.must, stopsMade, cause, reason: `${SENTENCES[cause]}${after}` };
}

const SENTENCES: Record<LeftOutCause, string> = {
  'no time': 'No station that can do this work has time left in its opening hours.',
  'no station': 'No station that can do this work has room for the basin.',
  'no vehicle': 'No vehicle can bring the basin there and back before the end of its shift.',
  'deadline': 'It cannot be done before the latest time that is allowed for it.',
  'waits for a visit left out': 'It needs the work of another visit that is left out.',
  'no berth': 'No berth is free for the basin to come back to.',
  'given up': 'The rest of this visit was given up.',
};
