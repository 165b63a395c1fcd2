/** Whether the walk of one basin keeps the rules. */
import { isOpen } from './planIndex.ts';
import type { PlanIndex } from './planIndex.ts';
import type { ScheduledStop, ScheduledTrip, ScheduleVisit } from './scheduleProblem.ts';
import type { BrokenRule, ScheduleViolation } from './scheduleViolation.ts';

/** The walk of one basin: every leg and stop once, in order, in time. */
export function checkVisit(index: PlanIndex, visit: ScheduleVisit): ScheduleViolation[] {
  const trips = index.trips.get(visit.id) ?? [];
  const stops = index.stops.get(visit.id) ?? [];
  const found: ScheduleViolation[] = [];
  const say: Say = (rule, sentence, atS, facts = {}) => {
    found.push({ rule, visit: visit.id, ...(atS === undefined ? {} : { atS }), ...facts, sentence: `Visit ${visit.id} of basin ${visit.basin}: ${sentence}` });
  };
  if (index.leftOut.has(visit.id)) checkLeftOut(index, visit, trips, say);
  else checkComplete(visit, trips, stops, say);
  let at = visit.startLocation;
  let freeS = visit.releaseS;
  for (const trip of trips) {
    const isFact = index.isFrozenTrip(trip);
    if (!isFact && trip.from !== at) say('not there', 'is fetched from where it does not stand.', trip.pickS);
    if (!isFact && trip.pickS < freeS) say('lifted too early', 'is lifted before it may be.', trip.pickS, { untilS: freeS });
    if (!isFact) checkCarrying(index, trip, say);
    at = trip.to;
    freeS = trip.arriveS;
    const stop = stops.find((s) => s.stop === trip.leg);
    if (trip.leg === visit.stops.length) checkReturn(visit, trip, isFact || index.leftOut.has(visit.id), say);
    else if (stop !== undefined) freeS = checkStop(index, visit, stop, trip, trips[trips.indexOf(trip) + 1], say);
    else if (!index.leftOut.has(visit.id)) say('incomplete', `is brought to stop ${trip.leg + 1} for nothing.`, trip.arriveS);
  }
  for (const stop of stops) if (!trips.some((t) => t.leg === stop.stop)) say('incomplete', `is never brought to stop ${stop.stop + 1}.`, stop.startS);
  return found;
}

type Say = (rule: BrokenRule, sentence: string, atS?: number, facts?: Pick<ScheduleViolation, 'stop' | 'station' | 'untilS' | 'limitS' | 'others'>) => void;

function checkLeftOut(index: PlanIndex, visit: ScheduleVisit, trips: readonly ScheduledTrip[], say: Say): void {
  const planned = trips.filter((t) => !index.isFrozenTrip(t));
  const underWay = planned.length < trips.length;
  if (!underWay && planned.length > 0) say('incomplete', 'is left out and has trips all the same.');
  if (underWay && planned.some((t) => t.leg !== visit.stops.length)) say('incomplete', 'is given up and goes on to a station.');
}

function checkComplete(visit: ScheduleVisit, trips: readonly ScheduledTrip[], stops: readonly ScheduledStop[], say: Say): void {
  const legs = trips.map((t) => t.leg).join();
  const all = Array.from({ length: visit.stops.length + 1 }, (_, i) => i);
  if (legs !== all.join()) say('incomplete', 'does not make each of its trips once.');
  if (stops.map((s) => s.stop).join() !== all.slice(0, -1).join()) say('incomplete', 'does not make each of its stops once.');
}

function checkCarrying(index: PlanIndex, trip: ScheduledTrip, say: Say): void {
  const vehicle = index.vehicles.get(trip.vehicle);
  if (vehicle === undefined) {
    say('incomplete', `is carried by ${trip.vehicle}, which does not exist.`, trip.pickS);
    return;
  }
  const travelS = index.problem.travelLoadedS[trip.from]?.[trip.to];
  if (trip.departS < trip.pickS + vehicle.pickS) say('too fast', 'is lifted faster than the vehicle can.', trip.pickS);
  if (travelS === undefined || trip.arriveS < trip.departS + travelS + vehicle.dropS) say('too fast', 'is carried faster than the vehicle can.', trip.departS);
}

function checkReturn(visit: ScheduleVisit, trip: ScheduledTrip, isExcused: boolean, say: Say): void {
  const isHome = trip.to === visit.endLocation || (visit.endChoices ?? []).some((end) => end.location === trip.to);
  if (!isHome) say('wrong berth', 'does not end on a berth it may stand on.', trip.arriveS);
  if (!isExcused && visit.deadlineS !== undefined && trip.arriveS > visit.deadlineS) say('back too late', 'comes back after its latest time.', trip.arriveS, { limitS: visit.deadlineS });
}

/** Returns when the basin can be lifted again. */
function checkStop(index: PlanIndex, visit: ScheduleVisit, stop: ScheduledStop, trip: ScheduledTrip, next: ScheduledTrip | undefined, say: Say): number {
  const name = `stop ${stop.stop + 1} at ${stop.station}`;
  const at = { stop: stop.stop, station: stop.station };
  if (stop.leaveS !== next?.departS) say('incomplete', `${name} does not end when the basin is taken away.`, stop.endS);
  if (index.isFrozenStop(stop)) return stop.endS;
  const wanted = visit.stops[stop.stop];
  const service = wanted?.alternatives.find((a) => a.station === stop.station);
  const station = index.stations.get(stop.station);
  if (wanted === undefined || service === undefined || station === undefined) {
    say('wrong station', `${stop.station} cannot do stop ${stop.stop + 1}.`, stop.startS, at);
    return stop.endS;
  }
  if (trip.to !== station.location || trip.toStation !== station.id) say('not there', `is not brought to ${station.id}.`, trip.arriveS);
  if (stop.arriveS !== trip.arriveS || stop.startS < stop.arriveS) say('not there', `${name} begins before the basin is there.`, stop.startS, { ...at, untilS: trip.arriveS });
  if (stop.endS !== stop.startS + service.serviceS) say('too fast', `${name} does not take the ${service.serviceS} s that it needs.`, stop.startS);
  if (stop.startS < (wanted.notBeforeS ?? 0)) say('begins too early', `${name} begins too early.`, stop.startS, { ...at, untilS: wanted.notBeforeS as number });
  if (wanted.endByS !== undefined && stop.endS > wanted.endByS) say('ends too late', `${name} ends after its latest time.`, stop.endS, { ...at, limitS: wanted.endByS });
  if (!isOpen(station, stop)) say('closed', `${name} lies outside opening hours.`, stop.startS, { ...at, untilS: stop.endS });
  for (const before of wanted.after ?? []) {
    const source = index.stops.get(before.visit)?.find((s) => s.stop === before.stop);
    const brought = index.isFrozenTrip(trip) ? stop.startS : stop.arriveS;
    if (source === undefined || source.endS > brought) say('waits for other work', `${name} comes before the work of visit ${before.visit} is done.`, stop.arriveS, { ...at, others: [before.visit], ...(source === undefined ? {} : { untilS: source.endS }) });
  }
  return stop.endS;
}
