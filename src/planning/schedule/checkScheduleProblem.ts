/** What is wrong with a problem before anything is planned: every number, name and reference, all at once. */
import type { Refusal } from '../../science/refusal.ts';
import type { RefusalCode } from '../../science/refusalCodes.ts';
import type { ScheduleProblem, ScheduleVisit } from './scheduleProblem.ts';

/** Refusals with a path into the problem; empty when it can be planned. */
export function checkScheduleProblem(problem: ScheduleProblem): Refusal[] {
  const found: Refusal[] = [];
  const say: Say = (code, path, message, value) => { found.push({ code, path, message, severity: 'error', ...(value === undefined ? {} : { value }) }); };
  checkMatrix(problem, 'travelEmptyS', say);
  checkMatrix(problem, 'travelLoadedS', say);
  checkStations(problem, say);
  checkVehicles(problem, say);
  checkBerths(problem, say);
  problem.visits.forEach((visit, i) => checkVisit(problem, visit, `visits[${i}]`, say));
  checkUnique(problem.stations.map((s) => s.id), 'stations', say);
  checkUnique(problem.vehicles.map((v) => v.id), 'vehicles', say);
  checkUnique(problem.visits.map((v) => v.id), 'visits', say);
  checkUnique(problem.visits.map((v) => v.basin), 'visits (basins)', say);
  checkOrder(problem, say);
  checkFrozen(problem, say);
  return found;
}

type Say = (code: RefusalCode, path: string, message: string, value?: unknown) => void;

function checkMatrix(problem: ScheduleProblem, name: 'travelEmptyS' | 'travelLoadedS', say: Say): void {
  const n = problem.locations.length;
  const matrix = problem[name];
  if (matrix.length !== n || matrix.some((row) => row.length !== n)) {
    say('inconsistent', name, `The table must have ${n} rows and columns, one for each location.`);
    return;
  }
  matrix.forEach((row, i) => row.forEach((seconds, j) => {
    if (!Number.isInteger(seconds) || seconds < 0 || seconds > MOST_S) checkSeconds(seconds, `${name}[${i}][${j}]`, say);
  }));
}

const MOST_S = 1e7;

function checkSeconds(value: number | undefined, path: string, say: Say, least = 0): void {
  if (value === undefined) return;
  if (!Number.isFinite(value)) say('value-not-a-number', path, 'A whole number of seconds is needed.', value);
  else if (!Number.isInteger(value) || value < least || value > MOST_S) say('value-out-of-range', path, `A whole number from ${least} to ${MOST_S} is needed.`, value);
}

function checkLocation(problem: ScheduleProblem, value: number, path: string, say: Say): void {
  if (problem.locations[value] === undefined) say('reference-unknown', path, `There is no location with index ${value}.`, value);
}

function checkUnique(ids: readonly string[], path: string, say: Say): void {
  const seen = new Set<string>();
  for (const id of ids) {
    if (seen.has(id)) say('duplicate', path, `${id} occurs twice.`, id);
    seen.add(id);
  }
}

function checkStations(problem: ScheduleProblem, say: Say): void {
  const crews = new Set((problem.crews ?? []).map((c) => c.id));
  problem.stations.forEach((station, i) => {
    const path = `stations[${i}]`;
    checkLocation(problem, station.location, `${path}.location`, say);
    checkSeconds(station.places, `${path}.places`, say, 1);
    checkSeconds(station.queuePlaces ?? 0, `${path}.queuePlaces`, say);
    checkSeconds(station.openFromS, `${path}.openFromS`, say);
    checkSeconds(station.openToS, `${path}.openToS`, say);
    if (station.crew !== undefined && !crews.has(station.crew)) say('reference-unknown', `${path}.crew`, `There is no crew ${station.crew}.`, station.crew);
  });
  (problem.crews ?? []).forEach((crew, i) => checkSeconds(crew.people, `crews[${i}].people`, say, 1));
}

function checkVehicles(problem: ScheduleProblem, say: Say): void {
  if (problem.vehicles.length === 0 && problem.visits.length > 0) say('infeasible', 'vehicles', 'Without a vehicle no basin can be moved.');
  problem.vehicles.forEach((vehicle, i) => {
    const path = `vehicles[${i}]`;
    checkLocation(problem, vehicle.startLocation, `${path}.startLocation`, say);
    for (const key of ['availableFromS', 'availableToS', 'pickS', 'dropS'] as const) checkSeconds(vehicle[key], `${path}.${key}`, say);
    const { battery } = vehicle;
    if (battery === undefined) return;
    checkLocation(problem, battery.chargeLocation, `${path}.battery.chargeLocation`, say);
    for (const key of ['capacityS', 'atStartS', 'reserveS'] as const) checkSeconds(battery[key], `${path}.battery.${key}`, say);
    if (!(battery.gainSPerS > 0)) say('value-out-of-range', `${path}.battery.gainSPerS`, 'Charging must gain more than nothing.', battery.gainSPerS);
  });
}

function checkBerths(problem: ScheduleProblem, say: Say): void {
  (problem.berths ?? []).forEach((berth, i) => {
    checkLocation(problem, berth.location, `berths[${i}].location`, say);
    checkSeconds(berth.places, `berths[${i}].places`, say);
    const leaving = problem.visits.filter((v) => v.startLocation === berth.location).length;
    if (berth.takenAtStart > berth.places || berth.takenAtStart < leaving) {
      say('inconsistent', `berths[${i}].takenAtStart`, `${leaving} basins leave this berth and ${berth.places} fit on it.`, berth.takenAtStart);
    }
  });
}

function checkVisit(problem: ScheduleProblem, visit: ScheduleVisit, path: string, say: Say): void {
  checkLocation(problem, visit.startLocation, `${path}.startLocation`, say);
  checkLocation(problem, visit.endLocation, `${path}.endLocation`, say);
  (visit.endChoices ?? []).forEach((end, i) => checkLocation(problem, end.location, `${path}.endChoices[${i}].location`, say));
  for (const key of ['releaseS', 'dueS', 'deadlineS'] as const) checkSeconds(visit[key], `${path}.${key}`, say);
  if (!(visit.priority > 0) || !Number.isFinite(visit.priority)) say('value-out-of-range', `${path}.priority`, 'The priority must be greater than 0.', visit.priority);
  if (visit.stops.length === 0) say('value-missing', `${path}.stops`, 'A visit needs at least one stop.');
  visit.stops.forEach((stop, i) => {
    const at = `${path}.stops[${i}]`;
    if (stop.alternatives.length === 0) say('infeasible', `${at}.alternatives`, 'No station can do this work; leave the visit out or name one.');
    for (const alternative of stop.alternatives) {
      if (!problem.stations.some((s) => s.id === alternative.station)) say('reference-unknown', `${at}.alternatives`, `There is no station ${alternative.station}.`, alternative.station);
      checkSeconds(alternative.serviceS, `${at}.alternatives`, say);
    }
    checkUnique(stop.alternatives.map((a) => a.station), `${at}.alternatives`, say);
    for (const key of ['notBeforeS', 'dueS', 'endByS'] as const) checkSeconds(stop[key], `${at}.${key}`, say);
    for (const before of stop.after ?? []) {
      const source = problem.visits.find((v) => v.id === before.visit);
      if (source === undefined || source.stops[before.stop] === undefined) say('reference-unknown', `${at}.after`, `There is no stop ${before.stop} of visit ${before.visit}.`, before);
    }
  });
}

/** Visits must not wait for one another in a ring. */
function checkOrder(problem: ScheduleProblem, say: Say): void {
  const sources = new Map(problem.visits.map((v) => [v.id, v.stops.flatMap((s) => (s.after ?? []).map((a) => a.visit))]));
  const settled = new Set<string>();
  for (let grown = true; grown;) {
    grown = false;
    for (const [visit, before] of sources) {
      if (settled.has(visit) || !before.every((source) => settled.has(source) || !sources.has(source))) continue;
      settled.add(visit);
      grown = true;
    }
  }
  for (const visit of sources.keys()) if (!settled.has(visit)) say('inconsistent', 'visits', `Visit ${visit} waits for itself by way of others.`, visit);
}

function checkFrozen(problem: ScheduleProblem, say: Say): void {
  const { frozen } = problem;
  if (frozen === undefined) return;
  const visits = new Set(problem.visits.map((v) => v.id));
  const vehicles = new Set(problem.vehicles.map((v) => v.id));
  checkSeconds(frozen.nowS, 'frozen.nowS', say);
  for (const trip of frozen.trips) {
    if (!visits.has(trip.visit)) say('reference-unknown', 'frozen.trips', `There is no visit ${trip.visit}.`, trip.visit);
    if (!vehicles.has(trip.vehicle)) say('reference-unknown', 'frozen.trips', `There is no vehicle ${trip.vehicle}.`, trip.vehicle);
  }
  for (const stop of frozen.stops) if (!visits.has(stop.visit)) say('reference-unknown', 'frozen.stops', `There is no visit ${stop.visit}.`, stop.visit);
}
