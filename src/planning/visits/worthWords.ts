import { localClock, type ShiftDay } from '../day/shiftDay.ts';
import type { Worth } from '../schedule/worthOfMore.ts';
import { countOf } from '../words/plainWords.ts';

/** What one addition would be worth today, with the proof or with what is open; `vehicles` that there are. */
export function worthWords(worth: Worth, vehicles: number, day: Pick<ShiftDay, 'startMs' | 'timeZone'>): string {
  const clock = (s: number) => localClock(day.startMs + s * 1000, day.timeZone);
  const { visitsMore, latenessSavedS, finishEarlierS, withoutS, withS, finishS = 0 } = worth;
  const name = nameOf(worth, vehicles);
  if (visitsMore > 0) return `${name} would let ${countOf(visitsMore, 'visit')} be made that ${visitsMore === 1 ? 'is' : 'are'} left out today (found, not proven).`;
  const late = latenessSavedS > 0 ? `save ${minutes(latenessSavedS)} of lateness (found, not proven)` : '';
  const early = finishEarlierS > 0 ? `bring the last basin back ${minutes(finishEarlierS)} earlier, at ${clock(finishS)}` : '';
  if (late === '' && early === '') return `${name}: nothing that this plan can show${withS === undefined ? '' : withS < withoutS ? `; the proven bound moves from ${clock(withoutS)} to ${clock(withS)}` : `; the proven bound stays at ${clock(withoutS)}`}.`;
  const proof = early === '' ? '' : `; no plan ${withoutName(worth, vehicles)} can do better than ${clock(withoutS)}${withS === undefined ? '' : `, none with it better than ${clock(withS)}`}`;
  return `${name} would ${[late, early].filter((part) => part !== '').join(' and ')}${proof}.`;
}

const minutes = (s: number): string => countOf(Math.floor(s / 60), 'minute');

const ORDINALS = ['first', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth', 'eleventh', 'twelfth'];
const NUMBERS = ['none', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

function nameOf({ what, kind }: Worth, vehicles: number): string {
  if (what === 'half hour') return 'Half an hour more of shift';
  if (what === 'place') return `One more place for ${kind}`;
  const ordinal = ORDINALS[vehicles];
  return ordinal === undefined ? 'One more vehicle' : `A${/^[aeiou]/.test(ordinal) ? 'n' : ''} ${ordinal} vehicle`;
}

function withoutName({ what }: Worth, vehicles: number): string {
  return what === 'vehicle' ? `with ${NUMBERS[vehicles] ?? vehicles}` : 'without it';
}
