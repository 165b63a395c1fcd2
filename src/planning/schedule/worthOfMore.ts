/** What one more vehicle, one more place at the busiest stations or half an hour more would be worth: planned anew, not guessed. */
import { boundFinish } from './boundFinish.ts';
import { DayChoice } from './dayChoice.ts';
import { buildDayModel } from './dayModel.ts';
import { planSchedule } from './planSchedule.ts';
import type { Schedule } from './schedule.ts';
import type { ScheduleProblem } from './scheduleProblem.ts';
import { withHalfHour, withPlace, withVehicle } from './widenProblem.ts';
import type { WidenedProblem } from './widenProblem.ts';

export interface Worth {
  readonly what: WidenedProblem['what'];
  /** Kind of stations, for a place more. */
  readonly kind?: string;
  /** Visits made that are left out otherwise; 0 where none. Found, not proven: there is no bound on them. */
  readonly visitsMore: number;
  /** Lateness of all visits that is saved, s, where the same visits are made; 0 below a minute. Found, not proven. */
  readonly latenessSavedS: number;
  /** The last basin is back so much earlier, s; 0 unless it is back before `withoutS`, which is the proof. */
  readonly finishEarlierS: number;
  /** No plan of today's visits without the addition ends earlier, s from the start of the shift. */
  readonly withoutS: number;
  /** No plan of these visits with it ends earlier, s from the start of the shift; absent where other visits are made. */
  readonly withS?: number;
  /** Finish of the plan that was found with it, s from the start of the shift; absent where none was searched for. */
  readonly finishS?: number;
}

export interface WorthOptions {
  readonly seed: number;
  /** Changes of the order tried for each plan, the one of the day as it is included. */
  readonly iterations: number;
}

/**
 * The day as it is and each wider day planned with the same seed and the same work, and compared with the better of
 * `schedule` and the day as it is. An earlier finish counts only where it lies before the proven bound of the day as it
 * is: everything later might be had without the addition by searching on. So where all is made in time and the addition
 * leaves that bound as it is, it is worth nothing, and nothing is searched. One addition after the other, with undefined
 * after each plan in between, so that whoever asks can stop there. Deterministic.
 */
export function* worthOfMore(problem: ScheduleProblem, schedule: Schedule, options: WorthOptions): Generator<Worth | undefined> {
  if (schedule.visits.length === 0) return;
  const undone = schedule.leftOut.length > 0 || latenessOf(schedule) > 0;
  const wider = [withVehicle(problem), withPlace(problem, schedule), ...(undone ? [withHalfHour(problem)] : [])];
  let again: Schedule | undefined;
  for (const each of wider) {
    if (each === undefined) continue;
    const withS = undone ? 0 : boundOfAll(each.problem);
    if (withS >= schedule.bound.finishS) { yield { ...nothing(each), withoutS: schedule.bound.finishS, withS }; continue; }
    if (again === undefined) {
      again = planSchedule(problem, options);
      yield undefined;
    }
    yield worthOf(each, planSchedule(each.problem, options), [schedule, again]);
  }
}

function worthOf(wider: WidenedProblem, plan: Schedule, known: readonly Schedule[]): Worth {
  const visitsMore = Math.max(0, plan.visits.length - Math.max(...known.map(({ visits }) => visits.length)));
  const alike = known.filter((each) => madeBy(each) === madeBy(plan));
  const savedS = Math.min(...known.map(latenessOf)) - latenessOf(plan);
  const earlierS = Math.min(...alike.map(({ finishS }) => finishS)) - plan.finishS;
  const withoutS = (alike[0] ?? known[0]!).bound.finishS;
  return {
    ...nothing(wider), visitsMore, withoutS, finishS: plan.finishS,
    latenessSavedS: alike.length > 0 && savedS >= LEAST_S ? savedS : 0,
    finishEarlierS: alike.length > 0 && plan.finishS < withoutS && earlierS >= LEAST_S ? earlierS : 0,
    ...(alike.length > 0 ? { withS: plan.bound.finishS } : {}),
  };
}

const nothing = ({ what, kind }: WidenedProblem) => ({ what, ...(kind === undefined ? {} : { kind }), visitsMore: 0, latenessSavedS: 0, finishEarlierS: 0 });

/** No schedule of all visits ends earlier, s. */
function boundOfAll(problem: ScheduleProblem): number {
  const model = buildDayModel(problem);
  return boundFinish(model, new DayChoice(model)).finishS;
}

/** Less than a minute is nothing. */
const LEAST_S = 60;

const madeBy = ({ visits }: Schedule): string => visits.map(({ visit }) => visit).join(' ');

const latenessOf = ({ visits }: Schedule): number => visits.reduce((sum, { latenessS }) => sum + latenessS, 0);
