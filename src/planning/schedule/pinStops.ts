import type { StopMove } from './moveStop.ts';
import type { ScheduleProblem, ScheduleStop, ScheduleVisit } from './scheduleProblem.ts';

/** The problem in which each pinned stop happens at its station and begins at its time, to the second; nothing else about it changes. */
export function pinStops(problem: ScheduleProblem, pins: readonly StopMove[]): ScheduleProblem {
  return { ...problem, visits: problem.visits.map((visit) => pinVisit(visit, pins.filter((pin) => pin.visit === visit.id))) };
}

function pinVisit(visit: ScheduleVisit, pins: readonly StopMove[]): ScheduleVisit {
  if (pins.length === 0) return visit;
  return { ...visit, stops: visit.stops.map((stop, i) => { const pin = pins.find((is) => is.stop === i); return pin === undefined ? stop : pinStop(stop, pin); }) };
}

function pinStop(stop: ScheduleStop, { station, startS }: StopMove): ScheduleStop {
  const alternatives = stop.alternatives.filter((is) => is.station === station);
  const endS = startS + (alternatives[0]?.serviceS ?? 0);
  return { ...stop, alternatives, notBeforeS: Math.max(startS, stop.notBeforeS ?? startS), endByS: Math.min(endS, stop.endByS ?? endS) };
}
