import type { StopPin } from '../../greenhouse/events.ts';
import { localClock } from '../day/shiftDay.ts';
import type { StopMove } from '../schedule/moveStop.ts';
import type { Schedule } from '../schedule/schedule.ts';
import type { BrokenRule, ScheduleViolation } from '../schedule/scheduleViolation.ts';
import { tryMove } from '../schedule/tryMove.ts';
import { breakWords, type BreakWords } from './breakWords.ts';
import type { LaidDay } from './laidDay.ts';

/** What comes of putting one stop elsewhere while everything else stays as planned. */
export interface TriedPin {
  readonly startAt: string;
  readonly endAt: string;
  /** What it breaks, in words; none: it can be done as it is. */
  readonly breaks: readonly BreakWords[];
  /** How the basin's own walk follows, a sentence each. */
  readonly follows: readonly string[];
  /** Reasons among the breaks that no other plan can mend: the stop itself cannot be there then. */
  readonly impossible: readonly string[];
}

/**
 * Tries a stop of a plan at another time or station with the validator that every plan has to pass. Undefined where the visit
 * or the stop is not in the plan. Changes nothing. `nowMs`: nothing may be moved to before it.
 */
export function tryPin(laid: LaidDay, pin: Omit<StopPin, 'by'>, nowMs: number, titleOf: (id: string) => string): TriedPin | undefined {
  const stop = laid.stopNumbers[pin.visit]?.indexOf(pin.stop) ?? -1;
  if (stop < 0 || !laid.schedule.stops.some((is) => is.visit === pin.visit && is.stop === stop)) return undefined;
  const move: StopMove = { visit: pin.visit, stop, station: pin.station, startS: Math.round((Date.parse(pin.startAt) - laid.startMs) / 1000) };
  const { schedule, broken } = tryMove(laid.problem, laid.schedule, move);
  const past = pastWords(laid, schedule, move, nowMs);
  const words = [...broken].sort((a, b) => (a.atS ?? 0) - (b.atS ?? 0)).map((each) => breakWords(each, laid, titleOf));
  const breaks = [...(past === undefined ? [] : [{ sentence: past, visits: [pin.visit] }]), ...distinct(words)];
  const moved = schedule.stops.find((is) => is.visit === pin.visit && is.stop === stop)!;
  return {
    startAt: instant(laid, moved.startS), endAt: instant(laid, moved.endS), breaks, follows: followWords(laid, schedule, move, titleOf),
    impossible: [...(past === undefined || Date.parse(pin.startAt) >= nowMs ? [] : [past]), ...broken.filter((each) => isOfStop(each, move)).map((each) => breakWords(each, laid, titleOf).sentence)],
  };
}

const instant = ({ startMs }: LaidDay, s: number): string => new Date(startMs + s * 1000).toISOString();

/** Rules that only the stop itself, its station and its time decide. */
const OF_THE_STOP: ReadonlySet<BrokenRule> = new Set(['wrong station', 'closed', 'crew off duty', 'begins too early', 'ends too late'] as const);

const isOfStop = ({ rule, visit, stop }: ScheduleViolation, move: StopMove): boolean => OF_THE_STOP.has(rule) && visit === move.visit && stop === move.stop;

function distinct(words: readonly BreakWords[]): BreakWords[] {
  return [...new Map(words.map((each) => [each.sentence, each])).values()];
}

function pastWords({ startMs, timeZone, problem }: LaidDay, { trips }: Schedule, { visit, stop, startS }: StopMove, nowMs: number): string | undefined {
  const setsOffMs = startMs + (trips.find((is) => is.visit === visit && is.leg === stop)?.emptyDepartS ?? startS) * 1000;
  if (setsOffMs >= nowMs) return undefined;
  const [now, then] = [localClock(nowMs, timeZone), localClock(setsOffMs, timeZone)];
  return `Basin ${problem.visits.find(({ id }) => id === visit)?.basin ?? visit} would have to be fetched for it from ${then} on, and it is ${now} already.`;
}

/** The vehicles that carry the basin then, later stops that shift with it, and when it is back. */
function followWords({ schedule: before, problem, startMs, timeZone }: LaidDay, after: Schedule, { visit, stop }: StopMove, titleOf: (id: string) => string): string[] {
  const clock = (s: number): string => localClock(startMs + s * 1000, timeZone);
  const ways = after.trips.filter((trip) => trip.visit === visit).flatMap((trip): string[] => {
    const old = before.trips.find((is) => is.visit === visit && is.leg === trip.leg);
    if (old === undefined || (old.pickS === trip.pickS && old.vehicle === trip.vehicle && old.from === trip.from)) return [];
    const other = old.vehicle === trip.vehicle ? '' : ` instead of ${titleOf(old.vehicle)}`;
    return [`${titleOf(trip.vehicle)}${other} lifts it at ${clock(trip.pickS)} (planned ${clock(old.pickS)}).`];
  });
  const later = after.stops.filter((is) => is.visit === visit && is.stop > stop).flatMap((is): string[] => {
    const old = before.stops.find((was) => was.visit === visit && was.stop === is.stop);
    return old === undefined || old.startS === is.startS ? [] : [`Its stop at ${titleOf(is.station)} then begins at ${clock(is.startS)} (planned ${clock(old.startS)}).`];
  });
  const [was, is] = [before, after].map(({ visits }) => visits.find((each) => each.visit === visit));
  const back = was === undefined || is === undefined || was.backS === is.backS ? [] : [`It is back on its berth at ${clock(is.backS)} (planned ${clock(was.backS)}).`];
  const late = is !== undefined && is.latenessS > (was?.latenessS ?? 0) ? [`It would be ${Math.ceil(is.latenessS / 60)} minutes late against what is wanted.`] : [];
  const bound = problem.visits.length > 0 && after.finishS > before.finishS ? [`The day's last basin is then back at ${clock(after.finishS)} (planned ${clock(before.finishS)}).`] : [];
  return [...ways, ...later, ...back, ...late, ...bound];
}
