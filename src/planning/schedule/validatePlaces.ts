/** Whether the places of stations, the people of crews and the berths suffice at every moment. */
import { isOpen } from './planIndex.ts';
import type { PlanIndex } from './planIndex.ts';
import type { ScheduleStation } from './scheduleProblem.ts';
import type { ScheduleViolation } from './scheduleViolation.ts';

interface Step { readonly atS: number; readonly change: 1 | -1; readonly isFact: boolean; readonly visit: string }

/** One basin too many: when and which, the ones that are there already, and when the first of all leaves. */
interface Crowding { readonly atS: number; readonly visit: string; readonly others: readonly string[]; readonly untilS?: number }

/** The steps at which more than `limit` are present because of one that is planned. Leaving comes before coming. */
function findCrowding(steps: readonly Step[], limit: number, atStart = 0): Crowding[] {
  const sorted = [...steps].sort((a, b) => a.atS - b.atS || a.change - b.change);
  let present = atStart;
  const there: string[] = [];
  return sorted.flatMap((step, i): Crowding[] => {
    present += step.change;
    if (step.change < 0) { if (there.includes(step.visit)) there.splice(there.indexOf(step.visit), 1); return []; }
    const others = [...there];
    there.push(step.visit);
    if (present <= limit || step.isFact) return [];
    const leaves = sorted.slice(i + 1).find(({ change }) => change < 0);
    return [{ atS: step.atS, visit: step.visit, others, ...(leaves === undefined ? {} : { untilS: leaves.atS }) }];
  });
}

export function checkStation(index: PlanIndex, station: ScheduleStation): ScheduleViolation[] {
  const served: Step[] = [];
  const present: Step[] = [];
  for (const trips of index.trips.values()) {
    trips.forEach((trip, i) => {
      if (trip.toStation !== station.id) return;
      const isFact = index.isFrozenTrip(trip);
      const leaveS = trips[i + 1]?.departS;
      const dropS = index.vehicles.get(trip.vehicle)?.dropS ?? 0;
      present.push({ atS: trip.arriveS - dropS, change: 1, isFact, visit: trip.visit });
      if (leaveS !== undefined) present.push({ atS: leaveS, change: -1, isFact, visit: trip.visit });
      const stop = index.stops.get(trip.visit)?.find((s) => s.stop === trip.leg);
      if (stop === undefined || stop.startS === stop.endS) return;
      const freesS = station.queuePlaces === null ? stop.endS : leaveS;
      served.push({ atS: stop.startS, change: 1, isFact: index.isFrozenStop(stop), visit: trip.visit });
      if (freesS !== undefined) served.push({ atS: freesS, change: -1, isFact, visit: trip.visit });
    });
  }
  const at = (crowding: Crowding, rule: ScheduleViolation['rule'], sentence: string): ScheduleViolation =>
    ({ rule, station: station.id, ...crowding, sentence: `Station ${station.id}: ${sentence}` });
  const room = station.queuePlaces === null ? Infinity : station.places + station.queuePlaces;
  return [
    ...findCrowding(present, room).map((step) => at(step, 'no place', `visit ${step.visit} is brought when every place is taken.`)),
    ...findCrowding(served, station.places).map((step) => at(step, 'no service place', `visit ${step.visit} is served when every service place is taken.`)),
  ];
}

export function checkCrews(index: PlanIndex): ScheduleViolation[] {
  return (index.problem.crews ?? []).flatMap((crew) => {
    const stops = index.schedule.stops.filter((s) => index.stations.get(s.station)?.crew === crew.id);
    const hours = { openFromS: crew.fromS, openToS: crew.toS, breaks: crew.breaks ?? [] };
    const off = stops.filter((s) => !index.isFrozenStop(s) && !isOpen(hours, s));
    const steps = stops.filter((s) => s.endS > s.startS).flatMap((s): Step[] => [
      { atS: s.startS, change: 1, isFact: index.isFrozenStop(s), visit: s.visit },
      { atS: s.endS, change: -1, isFact: index.isFrozenStop(s), visit: s.visit }]);
    return [
      ...off.map((s) => ({ rule: 'crew off duty' as const, visit: s.visit, stop: s.stop, station: s.station, atS: s.startS, untilS: s.endS, sentence: `Crew ${crew.id}: off duty at the stop of visit ${s.visit}.` })),
      ...findCrowding(steps, crew.people).map((step) => ({
        rule: 'crew too small' as const, ...step, sentence: `Crew ${crew.id}: more stops at once than its ${crew.people} people when that of visit ${step.visit} begins.` })),
    ];
  });
}

export function checkBerths(index: PlanIndex): ScheduleViolation[] {
  return (index.problem.berths ?? []).flatMap((berth) => {
    const steps: Step[] = [];
    for (const visit of index.problem.visits) {
      const trips = index.trips.get(visit.id) ?? [];
      const out = trips.find((t) => t.leg === 0);
      const home = trips.find((t) => t.leg === visit.stops.length);
      if (home?.to === visit.startLocation) continue;
      if (out?.from === berth.location) steps.push({ atS: out.departS, change: -1, isFact: true, visit: visit.id });
      if (home === undefined || home.to !== berth.location) continue;
      const dropS = index.vehicles.get(home.vehicle)?.dropS ?? 0;
      steps.push({ atS: home.arriveS - dropS, change: 1, isFact: index.isFrozenTrip(home), visit: visit.id });
    }
    return findCrowding(steps, berth.places, berth.takenAtStart).map((step) => ({
      rule: 'berth taken' as const, ...step, sentence: `Berth ${index.problem.locations[berth.location]}: it is taken when visit ${step.visit} comes back.` }));
  });
}
