import { localClock } from '../day/shiftDay.ts';
import type { ScheduleStation } from '../schedule/scheduleProblem.ts';
import type { ScheduleViolation } from '../schedule/scheduleViolation.ts';
import { listOf } from '../words/plainWords.ts';
import type { LaidDay } from './laidDay.ts';

/** A rule that an edited plan breaks, in the words of the floor: basins, titles and clock times. */
export interface BreakWords {
  readonly sentence: string;
  /** Visits that it concerns, to be marked on the timeline. */
  readonly visits: readonly string[];
}

/** `titleOf`: what stations and vehicles are called. */
export function breakWords(broken: ScheduleViolation, laid: LaidDay, titleOf: (id: string) => string): BreakWords {
  const { visit, others = [] } = broken;
  return { sentence: sentenceOf(broken, laid, titleOf), visits: [...(visit === undefined ? [] : [visit]), ...others] };
}

function sentenceOf(broken: ScheduleViolation, { problem, startMs, timeZone }: LaidDay, titleOf: (id: string) => string): string {
  const clock = (s: number | undefined): string => localClock(startMs + (s ?? 0) * 1000, timeZone);
  const basinOf = (visit: string): string => problem.visits.find(({ id }) => id === visit)?.basin ?? visit;
  const basin = `basin ${basinOf(broken.visit ?? '')}`;
  const others = listOf((broken.others ?? []).map(basinOf));
  const station = problem.stations.find(({ id }) => id === broken.station);
  const [place, vehicle] = [titleOf(broken.station ?? ''), titleOf(broken.vehicle ?? '')];
  const at = clock(broken.atS);
  const until = broken.untilS === undefined ? '' : clock(broken.untilS);
  switch (broken.rule) {
    case 'no place': return `${place} is full at ${at}: ${basin} comes and ${others} ${standWords(broken)} there${untilWords(broken, until)}.`;
    case 'no service place': return `${place} serves ${countWords(station)} at once: at ${at} ${basin} is to begin and ${others} ${keepWords(broken)}${untilWords(broken, until)}.`;
    case 'vehicle busy': return `${vehicle} is booked twice: it carries ${others === '' ? 'another basin' : `basin ${others}`} until ${until} and is to lift ${basin} at ${at}.`;
    case 'vehicle too far': return `${vehicle} is to lift ${basin} at ${at} and cannot be there before ${until}.`;
    case 'vehicle elsewhere': return `${vehicle} is not where it would have to come from to lift ${basin} at ${at}.`;
    case 'vehicle off duty': return `${vehicle} would have to carry ${basin} at ${at}, when it is not on duty.`;
    case 'battery': return `${vehicle}, at ${at} with ${basin}: ${broken.sentence.split(': ').at(-1)}`;
    case 'lifted too early': return `${capital(basin)} is to be lifted at ${at} and is not ready before ${until}.`;
    case 'begins too early': return `${place} may not begin with ${basin} before ${until}; it would at ${at}.`;
    case 'ends too late': return `${place} would be done with ${basin} at ${at}, after ${clock(broken.limitS)}${station?.kind === 'harvest' ? ', when its orders leave: they would be late' : ', the latest time that is allowed'}.`;
    case 'back too late': return `${capital(basin)} would be back at ${at}, after ${clock(broken.limitS)}, the latest time that is allowed.`;
    case 'closed': return closedWords(broken, station, place, basin, clock);
    case 'crew off duty': return `The people of ${place} are off duty at ${at}, when ${basin} is to be worked on.`;
    case 'crew too small': return `At ${at}, when ${basin} is to be worked on, the people are all busy with ${others}${untilWords(broken, until)}.`;
    case 'waits for other work': return `${capital(basin)} comes to ${place} at ${at}, before the work on basin ${others} that it waits for is done${broken.untilS === undefined ? '' : ` at ${until}`}.`;
    case 'berth taken': return `The berth of ${basin} is taken when it comes back at ${at}.`;
    case 'past': return `${capital(basin)}: what has begun already would be changed, or something would begin in the past.`;
    case 'incomplete': case 'not there': case 'too fast': case 'wrong berth': case 'wrong station': return `${capital(basin)}: ${broken.sentence.split(': ').slice(1).join(': ')}`;
  }
}

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
const untilWords = ({ untilS }: ScheduleViolation, until: string): string => (untilS === undefined ? '' : ` until ${until}`);
const standWords = ({ others = [] }: ScheduleViolation): string => (others.length === 1 ? 'stands' : 'stand');
const keepWords = ({ others = [] }: ScheduleViolation): string => (others.length === 1 ? 'keeps the place' : 'keep the places');
const countWords = (station: ScheduleStation | undefined): string => (station?.places === 1 ? 'one basin' : `${station?.places} basins`);

/** In a break, or outside the hours of the station. */
function closedWords({ atS = 0, untilS = 0 }: ScheduleViolation, station: ScheduleStation | undefined, place: string, basin: string, clock: (s: number) => string): string {
  const pause = station?.breaks?.find(({ fromS, toS }) => atS < toS && untilS > fromS);
  const when = `${place} would work on ${basin} from ${clock(atS)} to ${clock(untilS)}`;
  if (pause !== undefined) return `${when}, in the crew's break from ${clock(pause.fromS)} to ${clock(pause.toS)}.`;
  return `${when}, outside its hours from ${clock(station?.openFromS ?? 0)} to ${clock(station?.openToS ?? 0)}.`;
}
