import type { ShiftDay } from '../day/shiftDay.ts';
import type { DayDecision } from '../decideDay.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { ScheduleProblem } from '../schedule/scheduleProblem.ts';

/** The times of a plan with the question that they answer: what an edit of the plan is checked against. */
export interface LaidDay {
  readonly problem: ScheduleProblem;
  readonly schedule: Schedule;
  /** Second 0 of the schedule. */
  readonly startMs: number;
  readonly timeZone: string;
  /** By visit: the number on the plan of each stop that is still to be made. */
  readonly stopNumbers: Readonly<Record<string, readonly number[]>>;
}

export function layDown({ built, schedule, drafts }: DayDecision, day: ShiftDay): LaidDay {
  return {
    problem: built.problem, schedule, startMs: day.startMs, timeZone: day.timeZone,
    stopNumbers: Object.fromEntries(drafts.map(({ visit, stops }) => [visit, stops.map(({ number }) => number)])),
  };
}
