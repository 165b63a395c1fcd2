/**
 * Independent check of a schedule against its problem, written from the meaning of the model alone: it shares no code
 * with the planner or with its own validator, and goes through time naively.
 */
import type { Schedule } from '../../src/planning/schedule/schedule.ts';
import type { ScheduledCharge, ScheduledStop, ScheduledTrip, ScheduleProblem, ScheduleStop, ScheduleVisit } from '../../src/planning/schedule/scheduleProblem.ts';

/** Every rule that is broken, in words; empty when the schedule is right. */
export function verifySchedule(problem: ScheduleProblem, schedule: Schedule): string[] {
  return [
    ...verifyVisits(problem, schedule), ...verifyVehicles(problem, schedule), ...verifyStations(problem, schedule),
    ...verifyCrews(problem, schedule), ...verifyBerths(problem, schedule), ...verifyOrder(problem, schedule),
    ...verifyFrozen(problem, schedule), ...verifyFigures(problem, schedule),
  ];
}

const isFrozenTrip = (p: ScheduleProblem, t: ScheduledTrip): boolean => (p.frozen?.trips ?? []).some((f) => f.visit === t.visit && f.leg === t.leg);
const isFrozenStop = (p: ScheduleProblem, s: ScheduledStop): boolean => (p.frozen?.stops ?? []).some((f) => f.visit === s.visit && f.stop === s.stop);

function verifyVisits(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  const known = new Set(problem.visits.map((v) => v.id));
  for (const item of [...schedule.trips, ...schedule.stops]) if (!known.has(item.visit)) wrong.push(`${item.visit}: no such visit`);
  for (const visit of problem.visits) {
    const made = schedule.visits.filter((o) => o.visit === visit.id).length;
    const out = schedule.leftOut.filter((o) => o.visit === visit.id).length;
    const trips = schedule.trips.filter((t) => t.visit === visit.id);
    const stops = schedule.stops.filter((s) => s.visit === visit.id);
    if (out > 0) wrong.push(...verifyLeftOut(problem, visit, trips, made));
    else if (made !== 1) wrong.push(`${visit.id}: neither made once nor left out`);
    else wrong.push(...verifyMade(problem, visit, trips, stops));
    wrong.push(...trips.flatMap((trip) => verifyTrip(problem, visit, trip, trips, stops)));
    wrong.push(...stops.flatMap((stop) => verifyStop(problem, visit, stop, trips)));
  }
  return wrong;
}

function verifyLeftOut(problem: ScheduleProblem, visit: ScheduleVisit, trips: ScheduledTrip[], made: number): string[] {
  const wrong: string[] = [];
  const fresh = trips.filter((t) => !isFrozenTrip(problem, t));
  const begun = trips.some((t) => isFrozenTrip(problem, t));
  if (fresh.length > (begun ? 1 : 0)) wrong.push(`${visit.id}: left out, yet it has trips`);
  if (fresh.some((t) => t.leg !== visit.stops.length)) wrong.push(`${visit.id}: given up, yet it does not go home`);
  if (made > (begun ? 1 : 0)) wrong.push(`${visit.id}: left out and made`);
  return wrong;
}

function verifyMade(problem: ScheduleProblem, visit: ScheduleVisit, trips: ScheduledTrip[], stops: ScheduledStop[]): string[] {
  const wrong: string[] = [];
  for (let leg = 0; leg <= visit.stops.length; leg++) {
    if (trips.filter((t) => t.leg === leg).length !== 1) wrong.push(`${visit.id}: leg ${leg} is not made exactly once`);
    if (leg < visit.stops.length && stops.filter((s) => s.stop === leg).length !== 1) wrong.push(`${visit.id}: stop ${leg} is not made exactly once`);
  }
  const home = trips.find((t) => t.leg === visit.stops.length);
  if (home !== undefined && home.arriveS > (visit.deadlineS ?? Infinity) && !isFrozenTrip(problem, home)) wrong.push(`${visit.id}: back after its deadline`);
  return wrong;
}

function verifyTrip(problem: ScheduleProblem, visit: ScheduleVisit, trip: ScheduledTrip, trips: ScheduledTrip[], stops: ScheduledStop[]): string[] {
  if (isFrozenTrip(problem, trip)) return [];
  const wrong: string[] = [];
  const name = `${visit.id} leg ${trip.leg}`;
  const vehicle = problem.vehicles.find((v) => v.id === trip.vehicle);
  if (vehicle === undefined) return [`${name}: no such vehicle`];
  const before = trips.filter((t) => t.leg < trip.leg).sort((a, b) => b.leg - a.leg)[0];
  if (trip.from !== (before === undefined ? visit.startLocation : before.to)) wrong.push(`${name}: the basin is not there`);
  if (before !== undefined && trip.pickS < before.arriveS) wrong.push(`${name}: lifted before it was set down`);
  if (trip.leg === 0 && trip.pickS < visit.releaseS) wrong.push(`${name}: lifted before its release`);
  const stop = before === undefined ? undefined : stops.find((s) => s.stop === before.leg);
  if (stop !== undefined && trip.pickS < stop.endS) wrong.push(`${name}: lifted before the work is done`);
  if (stop !== undefined && stop.leaveS !== trip.departS) wrong.push(`${name}: the stop does not end with this trip`);
  if (trip.leg < visit.stops.length) {
    const station = problem.stations.find((s) => s.id === trip.toStation);
    if (station === undefined || station.location !== trip.to) wrong.push(`${name}: does not lead to a station`);
  } else {
    const homes = [visit.endLocation, ...(visit.endChoices ?? []).map((c) => c.location)];
    if (!homes.includes(trip.to)) wrong.push(`${name}: does not lead to its berth`);
  }
  if (trip.departS - trip.pickS < vehicle.pickS) wrong.push(`${name}: lifted too fast`);
  if (trip.arriveS - trip.departS < (problem.travelLoadedS[trip.from]?.[trip.to] ?? Infinity) + vehicle.dropS) wrong.push(`${name}: carried too fast`);
  return wrong;
}

function verifyStop(problem: ScheduleProblem, visit: ScheduleVisit, stop: ScheduledStop, trips: ScheduledTrip[]): string[] {
  if (isFrozenStop(problem, stop)) return [];
  const wrong: string[] = [];
  const name = `${visit.id} stop ${stop.stop}`;
  const wanted: ScheduleStop | undefined = visit.stops[stop.stop];
  const station = problem.stations.find((s) => s.id === stop.station);
  const service = wanted?.alternatives.find((a) => a.station === stop.station)?.serviceS;
  const bring = trips.find((t) => t.leg === stop.stop);
  if (wanted === undefined || station === undefined || service === undefined) return [`${name}: this station cannot do it`];
  if (bring === undefined || bring.arriveS !== stop.arriveS || bring.toStation !== stop.station) wrong.push(`${name}: the basin is not brought there`);
  if (stop.startS < stop.arriveS) wrong.push(`${name}: begins before the basin is there`);
  if (stop.endS - stop.startS !== service) wrong.push(`${name}: wrong service time`);
  if (stop.startS < (wanted.notBeforeS ?? 0)) wrong.push(`${name}: begins too early`);
  if (stop.endS > (wanted.endByS ?? Infinity)) wrong.push(`${name}: ends too late`);
  if (stop.startS < station.openFromS || stop.endS > station.openToS) wrong.push(`${name}: outside opening hours`);
  for (const pause of station.breaks ?? []) if (stop.startS < pause.toS && stop.endS > pause.fromS) wrong.push(`${name}: during a break`);
  const crew = problem.crews?.find((c) => c.id === station.crew);
  if (crew !== undefined) {
    if (stop.startS < crew.fromS || stop.endS > crew.toS) wrong.push(`${name}: outside the crew's shift`);
    for (const pause of crew.breaks ?? []) if (stop.startS < pause.toS && stop.endS > pause.fromS) wrong.push(`${name}: during the crew's break`);
  }
  return wrong;
}

function verifyVehicles(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  for (const vehicle of problem.vehicles) {
    type Task = { from: number; at: number; to: number; departS: number; beginS: number; endS: number; charge?: ScheduledCharge; trip?: ScheduledTrip; frozen: boolean };
    const tasks: Task[] = [
      ...schedule.trips.filter((t) => t.vehicle === vehicle.id).map((t) => ({
        from: t.emptyFrom, at: t.from, to: t.to, departS: t.emptyDepartS, beginS: t.pickS, endS: t.arriveS, trip: t, frozen: isFrozenTrip(problem, t) })),
      ...schedule.charges.filter((c) => c.vehicle === vehicle.id).map((c) => ({
        from: c.emptyFrom, at: c.location, to: c.location, departS: c.emptyDepartS, beginS: c.fromS, endS: c.toS, charge: c,
        frozen: (problem.frozen?.charges ?? []).some((f) => f.vehicle === c.vehicle && f.fromS === c.fromS) })),
    ].sort((a, b) => a.beginS - b.beginS || a.endS - b.endS);
    let at = vehicle.startLocation;
    let free = 0;
    let charge = vehicle.battery?.atStartS ?? Infinity;
    for (const task of tasks) {
      const name = `${vehicle.id} at ${task.beginS}`;
      const travel = problem.travelEmptyS[task.from]?.[task.at] ?? Infinity;
      if (!task.frozen) {
        if (task.from !== at) wrong.push(`${name}: comes from where it is not`);
        if (task.departS < free) wrong.push(`${name}: sets off while it is busy`);
        if (task.beginS - task.departS < travel) wrong.push(`${name}: drives too fast`);
        if (task.departS < vehicle.availableFromS || task.endS > vehicle.availableToS) wrong.push(`${name}: outside its shift`);
      }
      if (vehicle.battery !== undefined) {
        charge -= travel;
        if (task.trip !== undefined) charge -= (problem.travelLoadedS[task.at]?.[task.to] ?? 0) + vehicle.pickS + vehicle.dropS;
        if (task.charge !== undefined) charge = Math.min(vehicle.battery.capacityS, charge + (task.endS - task.beginS) * vehicle.battery.gainSPerS);
        if (charge < vehicle.battery.reserveS && task.trip !== undefined && !task.frozen) wrong.push(`${name}: battery below its reserve`);
        if (task.charge !== undefined && task.at !== vehicle.battery.chargeLocation) wrong.push(`${name}: charges where there is no charger`);
      }
      at = task.to;
      free = Math.max(free, task.endS);
    }
  }
  return wrong;
}

/** From when to when the basin of a stop blocks room: setting down begins dropS before it is set down. */
function verifyStations(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  for (const station of problem.stations) {
    const here = schedule.trips.filter((t) => t.toStation === station.id).map((trip) => {
      const drop = problem.vehicles.find((v) => v.id === trip.vehicle)?.dropS ?? 0;
      const stop = schedule.stops.find((s) => s.visit === trip.visit && s.stop === trip.leg && s.station === station.id);
      const taken = schedule.trips.filter((t) => t.visit === trip.visit && t.leg > trip.leg).sort((a, b) => a.leg - b.leg)[0];
      return { from: trip.arriveS - drop, to: taken?.departS ?? Infinity, stop, trip, late: !isFrozenTrip(problem, trip) };
    });
    for (const one of here) {
      if (station.queuePlaces !== null && one.late) {
        const present = here.filter((o) => o.from <= one.from && one.from < o.to).length;
        if (present > station.places + station.queuePlaces) wrong.push(`${station.id} at ${one.from}: ${present} basins, more than there is room for`);
      }
      if (one.stop === undefined || isFrozenStop(problem, one.stop)) continue;
      const start = one.stop.startS;
      const busy = here.filter((o) => {
        if (o.stop === undefined || o.stop.startS > start) return false;
        const until = station.queuePlaces === null ? o.stop.endS : o.to;
        return start < until || o === one;
      }).length;
      if (busy > station.places) wrong.push(`${station.id} at ${start}: ${busy} basins on ${station.places} places`);
    }
  }
  return wrong;
}

function verifyCrews(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  for (const crew of problem.crews ?? []) {
    const theirs = new Set(problem.stations.filter((s) => s.crew === crew.id).map((s) => s.id));
    const work = schedule.stops.filter((s) => theirs.has(s.station));
    for (const stop of work) {
      if (isFrozenStop(problem, stop)) continue;
      const busy = work.filter((o) => o === stop || (o.startS <= stop.startS && stop.startS < o.endS)).length;
      if (busy > crew.people) wrong.push(`${crew.id} at ${stop.startS}: ${busy} stops for ${crew.people} people`);
    }
  }
  return wrong;
}

function verifyBerths(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  for (const berth of problem.berths ?? []) {
    type Event = { time: number; change: number; frozen: boolean };
    const events: Event[] = [];
    for (const visit of problem.visits) {
      const near = [visit.startLocation, visit.endLocation, ...(visit.endChoices ?? []).map((c) => c.location)];
      if (!near.includes(berth.location) && !schedule.visits.some((o) => o.visit === visit.id && o.endLocation === berth.location)) continue;
      const trips = schedule.trips.filter((t) => t.visit === visit.id);
      const away = trips.find((t) => t.leg === 0);
      const home = trips.find((t) => t.leg === visit.stops.length);
      const own = home?.to === visit.startLocation;
      if (own) continue;
      if (away !== undefined && visit.startLocation === berth.location) events.push({ time: away.departS, change: -1, frozen: false });
      if (home !== undefined && home.to === berth.location) {
        const drop = problem.vehicles.find((v) => v.id === home.vehicle)?.dropS ?? 0;
        events.push({ time: home.arriveS - drop, change: 1, frozen: isFrozenTrip(problem, home) });
      }
    }
    events.sort((a, b) => a.time - b.time || a.change - b.change);
    let taken = berth.takenAtStart;
    for (const event of events) {
      taken += event.change;
      if (event.change > 0 && !event.frozen && taken > berth.places) wrong.push(`berth ${berth.location} at ${event.time}: ${taken} basins on ${berth.places} places`);
    }
  }
  return wrong;
}

function verifyOrder(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  for (const stop of schedule.stops) {
    if (isFrozenStop(problem, stop)) continue;
    const wanted = problem.visits.find((v) => v.id === stop.visit)?.stops[stop.stop];
    for (const ref of wanted?.after ?? []) {
      const source = schedule.stops.find((s) => s.visit === ref.visit && s.stop === ref.stop);
      if (source === undefined) wrong.push(`${stop.visit} stop ${stop.stop}: ${ref.visit} is not done before`);
      else if (stop.startS < source.endS) wrong.push(`${stop.visit} stop ${stop.stop}: begins before ${ref.visit} is done`);
      else if (stop.arriveS < source.endS && !schedule.trips.some((t) => t.visit === stop.visit && t.leg === stop.stop && isFrozenTrip(problem, t))) wrong.push(`${stop.visit} stop ${stop.stop}: brought before ${ref.visit} is done`);
    }
  }
  return wrong;
}

function verifyFrozen(problem: ScheduleProblem, schedule: Schedule): string[] {
  const frozen = problem.frozen;
  if (frozen === undefined) return [];
  const wrong: string[] = [];
  const same = (a: object, b: object, keys: readonly string[]): boolean =>
    keys.every((key) => (a as Record<string, unknown>)[key] === (b as Record<string, unknown>)[key]);
  const tripKeys = ['vehicle', 'visit', 'leg', 'from', 'to', 'toStation', 'emptyFrom', 'emptyDepartS', 'pickS', 'departS', 'arriveS'];
  for (const trip of frozen.trips) if (!schedule.trips.some((t) => same(t, trip, tripKeys))) wrong.push(`${trip.visit} leg ${trip.leg}: what was under way is changed`);
  for (const stop of frozen.stops) {
    const keys = ['visit', 'stop', 'station', 'arriveS', 'startS', 'endS', ...(stop.leaveS === undefined ? [] : ['leaveS'])];
    if (!schedule.stops.some((s) => same(s, stop, keys))) wrong.push(`${stop.visit} stop ${stop.stop}: what was under way is changed`);
  }
  for (const trip of schedule.trips) if (!isFrozenTrip(problem, trip) && trip.emptyDepartS < frozen.nowS) wrong.push(`${trip.visit} leg ${trip.leg}: begins in the past`);
  for (const stop of schedule.stops) if (!isFrozenStop(problem, stop) && stop.startS < frozen.nowS) wrong.push(`${stop.visit} stop ${stop.stop}: begins in the past`);
  for (const id of frozen.givenUp ?? []) {
    if (schedule.stops.some((s) => s.visit === id && !isFrozenStop(problem, s))) wrong.push(`${id}: goes on although it was given up`);
  }
  return wrong;
}

function verifyFigures(problem: ScheduleProblem, schedule: Schedule): string[] {
  const wrong: string[] = [];
  let finish = 0;
  for (const outcome of schedule.visits) {
    const visit = problem.visits.find((v) => v.id === outcome.visit);
    const home = schedule.trips.find((t) => t.visit === outcome.visit && t.leg === visit?.stops.length);
    if (visit === undefined || home === undefined) { wrong.push(`${outcome.visit}: outcome without a visit`); continue; }
    finish = Math.max(finish, home.arriveS);
    let late = Math.max(0, home.arriveS - (visit.dueS ?? Infinity));
    for (const stop of schedule.stops.filter((s) => s.visit === visit.id)) late = Math.max(late, stop.endS - (visit.stops[stop.stop]?.dueS ?? Infinity));
    if (outcome.latenessS !== late) wrong.push(`${visit.id}: lateness ${outcome.latenessS}, is ${late}`);
    if (outcome.backS !== home.arriveS || outcome.endLocation !== home.to) wrong.push(`${visit.id}: wrong return`);
    if (outcome.leavesS !== schedule.trips.find((t) => t.visit === visit.id && t.leg === 0)?.departS) wrong.push(`${visit.id}: wrong departure`);
  }
  if (schedule.finishS !== finish) wrong.push(`finish ${schedule.finishS}, is ${finish}`);
  if (schedule.bound.finishS > schedule.finishS) wrong.push(`bound ${schedule.bound.finishS} above the finish ${schedule.finishS}`);
  let empty = 0;
  let loaded = 0;
  for (const t of schedule.trips) {
    empty += problem.travelEmptyS[t.emptyFrom]?.[t.from] ?? NaN;
    loaded += problem.travelLoadedS[t.from]?.[t.to] ?? NaN;
  }
  for (const c of schedule.charges) empty += problem.travelEmptyS[c.emptyFrom]?.[c.location] ?? NaN;
  if (schedule.emptyTravelS !== empty) wrong.push(`empty travel ${schedule.emptyTravelS}, is ${empty}`);
  if (schedule.loadedTravelS !== loaded) wrong.push(`loaded travel ${schedule.loadedTravelS}, is ${loaded}`);
  for (const item of [...schedule.trips, ...schedule.stops, ...schedule.charges]) {
    for (const value of Object.values(item)) if (typeof value === 'number' && !Number.isInteger(value)) wrong.push(`${JSON.stringify(item)}: not whole numbers`);
  }
  return wrong;
}
