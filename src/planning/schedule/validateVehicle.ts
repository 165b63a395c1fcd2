/** Whether one vehicle can do what a schedule asks of it: one thing after another, with the way and the charge between. */
import type { Schedule } from './schedule.ts';
import type { ScheduledCharge, ScheduledTrip, ScheduleProblem, ScheduleVehicle } from './scheduleProblem.ts';
import type { BrokenRule, ScheduleViolation } from './scheduleViolation.ts';

interface Job {
  readonly name: string;
  readonly emptyFrom: number;
  readonly emptyDepartS: number;
  readonly at: number;
  readonly beginS: number;
  readonly to: number;
  readonly endS: number;
  readonly isFact: boolean;
  /** Seconds of battery that it takes after the empty way, or gives (negative). */
  readonly usesS: number;
  readonly isCharge: boolean;
  readonly visit?: string;
}

type Say = (rule: BrokenRule, sentence: string, facts?: Pick<ScheduleViolation, 'untilS' | 'others'>) => void;

export function checkVehicle(problem: ScheduleProblem, vehicle: ScheduleVehicle, schedule: Schedule, isFrozen: (trip: ScheduledTrip) => boolean): ScheduleViolation[] {
  const jobs = [
    ...schedule.trips.filter((t) => t.vehicle === vehicle.id).map((t) => tripJob(problem, vehicle, t, isFrozen(t))),
    ...schedule.charges.filter((c) => c.vehicle === vehicle.id).map((c) => chargeJob(problem, vehicle, c)),
  ].sort((a, b) => a.beginS - b.beginS || a.endS - b.endS);
  const found: ScheduleViolation[] = [];
  let at = vehicle.startLocation;
  let freeS = 0;
  let before: string | undefined;
  let chargeS = vehicle.battery?.atStartS ?? 0;
  for (const job of jobs) {
    const say: Say = (rule, sentence, facts = {}) => {
      found.push({ rule, vehicle: vehicle.id, ...(job.visit === undefined ? {} : { visit: job.visit }), atS: job.beginS, ...facts, sentence: `Vehicle ${vehicle.id}, ${job.name}: ${sentence}` });
    };
    const wayS = problem.travelEmptyS[job.emptyFrom]?.[job.at] ?? Infinity;
    if (!job.isFact) {
      if (job.emptyFrom !== at) say('vehicle elsewhere', 'it does not come from where it was.');
      if (job.emptyDepartS < freeS) say('vehicle busy', 'it sets off before it is free.', { untilS: freeS, ...(before === undefined ? {} : { others: [before] }) });
      if (job.beginS < job.emptyDepartS + wayS) say('vehicle too far', 'it cannot be there so soon.', { untilS: job.emptyDepartS + wayS });
      if (job.emptyDepartS < vehicle.availableFromS || job.endS > vehicle.availableToS) say('vehicle off duty', 'it is not on duty then.');
    }
    chargeS = Math.min(vehicle.battery?.capacityS ?? 0, chargeS - wayS - job.usesS);
    if (vehicle.battery !== undefined && !job.isFact) checkBattery(vehicle, job, chargeS, say);
    at = job.to;
    if (job.endS >= freeS) before = job.visit;
    freeS = Math.max(freeS, job.endS);
  }
  return found;
}

function checkBattery(vehicle: ScheduleVehicle, job: Job, chargeS: number, say: Say): void {
  if (job.isCharge && job.at !== vehicle.battery?.chargeLocation) say('battery', 'there is no charger there.');
  if (!job.isCharge && chargeS < (vehicle.battery?.reserveS ?? 0)) say('battery', 'its battery does not suffice.');
}

function tripJob(problem: ScheduleProblem, vehicle: ScheduleVehicle, trip: ScheduledTrip, isFact: boolean): Job {
  const loadedS = problem.travelLoadedS[trip.from]?.[trip.to] ?? 0;
  return {
    name: `trip ${trip.leg + 1} of visit ${trip.visit}`, emptyFrom: trip.emptyFrom, emptyDepartS: trip.emptyDepartS, at: trip.from,
    beginS: trip.pickS, to: trip.to, endS: trip.arriveS, isFact, usesS: loadedS + vehicle.pickS + vehicle.dropS, isCharge: false, visit: trip.visit,
  };
}

function chargeJob(problem: ScheduleProblem, vehicle: ScheduleVehicle, charge: ScheduledCharge): Job {
  const isFact = (problem.frozen?.charges ?? []).some((c) => c.vehicle === charge.vehicle && c.fromS === charge.fromS && c.toS === charge.toS);
  return {
    name: 'charging', emptyFrom: charge.emptyFrom, emptyDepartS: charge.emptyDepartS, at: charge.location, beginS: charge.fromS,
    to: charge.location, endS: charge.toS, isFact, usesS: -(charge.toS - charge.fromS) * (vehicle.battery?.gainSPerS ?? 0), isCharge: true,
  };
}
