import { countOf, listOf, shown, someOf } from '../words/plainWords.ts';
import type { WeekOverrun, WeekResource, WeekVisit } from './weekView.ts';

/** "Vehicles on 2026-03-12 need 1320 min and have 1200: B001 and B004 could move to 2026-03-11 ..." */
export function overrunSentence(title: string, overrun: Omit<WeekOverrun, 'sentence'>, moved: readonly WeekVisit[], isToday: boolean): string {
  const says = `${title} on ${overrun.date} need ${shown(overrun.loadMin, 0)} min and have ${shown(overrun.capacityMin, 0)}`;
  if (isToday) return `${says}: today's own timetable says what fits.`;
  const days = [...new Set(moved.map(({ to }) => to!))].sort();
  const moves = listOf(days.map((to) => `${someOf([...new Set(moved.filter((visit) => visit.to === to).map(({ basin }) => basin))])} to ${to}`));
  if (overrun.staysOverMin <= 0) return `${says}: moving ${moves} brings them within the shift.`;
  const stays = `${shown(overrun.staysOverMin, 0)} min stay over`;
  return moved.length === 0 ? `${says}: no visit could move to a day with room within its window; ${stays}.` : `${says}: moving ${moves} helps, but ${stays}.`;
}

/** What the two weeks ask for, and where it is too much; where it is not, how full the fullest day is. */
export function weekSentence(visits: number, overruns: readonly WeekOverrun[], moves: number, fullest: string): string {
  const expected = `${countOf(visits, 'visit')} expected in 14 days`;
  const days = new Set(overruns.map(({ date }) => date)).size;
  if (days === 0) return `${expected}; every day has room at stations, for the crew and for vehicles. ${fullest}`;
  const still = new Set(overruns.filter(({ staysOverMin }) => staysOverMin > 0).map(({ date }) => date)).size;
  const left = still === 0 ? 'brings all of them within the shift' : `leaves ${countOf(still, 'day')} over`;
  return `${expected}; ${countOf(days, 'day')} ${days === 1 ? 'asks' : 'ask'} for more than the shift has${moves === 0 ? ', and no visit could move to a day with room' : `; moving ${countOf(moves, 'visit')} within their windows ${left}`}.`;
}

/** "The fullest after today is Vehicles on 2026-03-12: 42 % of the shift." */
export function fullestWords(resources: readonly WeekResource[], dates: readonly string[]): string {
  let most = { share: -1, words: '' };
  for (const { title, loadMin, capacityMin } of resources) {
    for (let i = 1; i < dates.length; i++) {
      const share = loadMin[i]! / Math.max(1e-9, capacityMin[i]!);
      if (share > most.share) most = { share, words: `Fullest after today: ${title.toLowerCase()} on ${dates[i]!}, ${shown(100 * share, 0)} % of the shift.` };
    }
  }
  return most.words;
}
