/** Plans a day again around stops that a person keeps where they want them. */
import { pinStops } from './pinStops.ts';
import type { StopMove } from './moveStop.ts';
import { replanSchedule } from './replanSchedule.ts';
import type { ReplanOptions } from './replanSchedule.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduledTrip, ScheduleProblem } from './scheduleProblem.ts';
import { tryMove } from './tryMove.ts';

export interface PinnedSchedule {
  readonly schedule: Schedule;
  /** The problem that it answers: the given one with the pins. */
  readonly problem: ScheduleProblem;
  /** Pins that no plan was found for; their visits are left out. Empty: every pin holds. */
  readonly failed: readonly StopMove[];
}

/**
 * A schedule in which each pinned stop happens at its station and begins at its time, and which changes as little as is worth
 * it of `schedule`, the plan without the pins. Pins are exact, so whether a plan is found depends on who comes before whom:
 * several leads of the pinned basins over the others are laid out, and the best goes on to the search. Deterministic.
 */
export function pinSchedule(problem: ScheduleProblem, schedule: Schedule, pins: readonly StopMove[], options: ReplanOptions): PinnedSchedule {
  const pinned = pinStops(problem, pins);
  const moved = pins.reduce((edited, pin) => tryMove(problem, edited, pin).schedule, schedule);
  let bestLeadS = 0;
  let best: Schedule | undefined;
  for (const leadS of LEADS_S) {
    const laid = replanSchedule(pinned, leadBy(moved, pins, leadS), { ...options, iterations: 0 });
    if (best !== undefined && compare(laid, best, pins) >= 0) continue;
    best = laid;
    bestLeadS = leadS;
    if (isAsGood(laid, schedule)) break;
  }
  const found = replanSchedule(pinned, leadBy(moved, pins, bestLeadS), options);
  return { schedule: found, problem: pinned, failed: pins.filter(({ visit }) => !found.visits.some((is) => is.visit === visit)) };
}

/** How much earlier than needed pinned basins may be on their way, so that nobody is in the way of them. */
const LEADS_S = [0, 180, 420, 900, 1800, 3600];

/** Trips that bring pinned stops are counted as so much earlier where it is asked who goes first. */
function leadBy(schedule: Schedule, pins: readonly StopMove[], leadS: number): Schedule {
  const rankS = (trip: ScheduledTrip): number => (pins.some(({ visit, stop }) => visit === trip.visit && trip.leg <= stop) ? trip.pickS - leadS : trip.pickS);
  return { ...schedule, trips: [...schedule.trips].sort((a, b) => rankS(a) - rankS(b) || (a.vehicle < b.vehicle ? -1 : 1)) };
}

/** Nothing more is left out and nothing is later than without the pins: no other lead is tried. */
function isAsGood(laid: Schedule, before: Schedule): boolean {
  return laid.leftOut.length <= before.leftOut.length && lateness(laid) <= lateness(before);
}

const lateness = ({ visits }: Schedule): number => visits.reduce((sum, { latenessS }) => sum + latenessS, 0);

/** Negative when the first is better: more pins, more of what must be done, more visits, less late, back earlier. */
function compare(a: Schedule, b: Schedule, pins: readonly StopMove[]): number {
  const missed = ({ leftOut }: Schedule) => leftOut.filter(({ visit }) => pins.some((pin) => pin.visit === visit)).length;
  const must = ({ leftOut }: Schedule) => leftOut.filter((each) => each.must).length;
  return missed(a) - missed(b) || must(a) - must(b) || a.leftOut.length - b.leftOut.length || lateness(a) - lateness(b) || a.finishS - b.finishS;
}
