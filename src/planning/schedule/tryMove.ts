import { moveStop } from './moveStop.ts';
import type { MoveWay, StopMove } from './moveStop.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import type { ScheduleViolation } from './scheduleViolation.ts';
import { validateSchedule } from './validateSchedule.ts';

/** What comes of a move: the edited schedule and every rule that it breaks; none where it can be done as it is. */
export interface TriedMove {
  readonly schedule: Schedule;
  readonly broken: readonly ScheduleViolation[];
}

/**
 * The move with the vehicles of the plan, brought and fetched as planned, just in time or right after the work; if each of
 * these breaks a rule, with each vehicle in turn. The first way that breaks nothing, else the one of the plan's own vehicles that breaks least. Nothing else is moved.
 * Whole floors are tried with the plan's own vehicles only, so that the answer stays quick.
 */
export function tryMove(problem: ScheduleProblem, schedule: Schedule, move: StopMove): TriedMove {
  const own: MoveWay[] = [true, false].flatMap((broughtAsPlanned) => [true, false].map((fetchedAsPlanned) => ({ broughtAsPlanned, fetchedAsPlanned })));
  const others = schedule.trips.length > MOST_TRIPS ? [] : problem.vehicles.map(({ id }): MoveWay => ({ vehicle: id, broughtAsPlanned: false, fetchedAsPlanned: false }));
  let best: TriedMove | undefined;
  const seen = new Set<string>();
  for (const [number, way] of [...own, ...others].entries()) {
    const edited = moveStop(problem, schedule, move, way);
    const walk = edited.trips.flatMap(({ visit, vehicle, pickS }) => (visit === move.visit ? [`${vehicle} ${pickS}`] : [])).join();
    if (seen.has(walk)) continue;
    seen.add(walk);
    const tried = { schedule: edited, broken: validateSchedule(problem, edited) };
    if (tried.broken.length === 0) return tried;
    if (best === undefined || (number < own.length && tried.broken.length < best.broken.length)) best = tried;
  }
  return best!;
}

const MOST_TRIPS = 600;
