import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import { WEEK_DAYS, type ExpectedVisit } from './expectedVisit.ts';
import type { Resource } from './weekCapacity.ts';

export interface LevelledWeek {
  /** Day of each visit after levelling, in the order of the visits. */
  readonly days: readonly number[];
  /** Minutes by resource and day, before and after. */
  readonly before: readonly Float64Array[];
  readonly after: readonly Float64Array[];
}

const EPSILON_MIN = 1e-6;
/** What is moved first: it harms least. */
const MOVED_FIRST: readonly StationKind[] = ['imaging', 'washing', 'filling', 'transplanting', 'harvest'];

/**
 * Simple greedy levelling: day by day, while a resource is over, the visit of least consequence that uses it moves to the
 * day of its window that is emptiest and stays within every capacity. Not a proof that nothing better exists. Nothing moves
 * to or from day 0, which has its own plan. Visits of one move of plants (same `together`) go as one.
 */
export function levelWeek(visits: readonly ExpectedVisit[], resources: readonly Resource[], together: (visit: ExpectedVisit, i: number) => string): LevelledWeek {
  const minutes = visits.map((visit) => resources.map(({ minutesOf }) => minutesOf(visit)));
  const before = resources.map(() => new Float64Array(WEEK_DAYS));
  visits.forEach(({ day }, i) => before.forEach((load, r) => { load[day]! += minutes[i]![r]!; }));
  const after = before.map((load) => load.slice());
  const days = visits.map(({ day }) => day);
  const bundles = bundle(visits, minutes, together);
  for (let day = 1; day < WEEK_DAYS; day++) {
    for (const each of bundles) {
      const over = resources.findIndex(({ capacityMin }, r) => after[r]![day]! > capacityMin[day]! + EPSILON_MIN && each.minutes[r]! > 0);
      if (over < 0 || days[each.members[0]!] !== day) continue;
      const to = bestDay(each, day, after, resources);
      if (to === undefined) continue;
      after.forEach((load, r) => { load[day]! -= each.minutes[r]!; load[to]! += each.minutes[r]!; });
      for (const member of each.members) days[member] = to;
    }
  }
  return { days, before, after };
}

interface Bundle { readonly members: readonly number[]; readonly minutes: readonly number[]; readonly earliest: number; readonly latest: number; readonly rank: number; readonly key: string }

function bundle(visits: readonly ExpectedVisit[], minutes: readonly (readonly number[])[], together: (visit: ExpectedVisit, i: number) => string): Bundle[] {
  const byKey = new Map<string, number[]>();
  visits.forEach((visit, i) => { const key = together(visit, i); byKey.set(key, [...(byKey.get(key) ?? []), i]); });
  return [...byKey].map(([key, members]): Bundle => ({
    key, members, minutes: minutes[0]!.map((_, r) => members.reduce((total, i) => total + minutes[i]![r]!, 0)),
    earliest: Math.max(1, ...members.map((i) => visits[i]!.earliest)), latest: Math.min(WEEK_DAYS - 1, ...members.map((i) => visits[i]!.latest)),
    rank: Math.max(...members.flatMap((i) => visits[i]!.stops.map(({ kind }) => MOVED_FIRST.indexOf(kind)))),
  })).sort((a, b) => a.rank - b.rank || (b.latest - b.earliest) - (a.latest - a.earliest) || (a.key < b.key ? -1 : 1));
}

/** The day in the window whose fullest resource is least full with the visit; absent where every other day would be over. */
function bestDay(moved: Bundle, from: number, after: readonly Float64Array[], resources: readonly Resource[]): number | undefined {
  let best: number | undefined;
  let least = 1 + EPSILON_MIN;
  for (let day = moved.earliest; day <= moved.latest; day++) {
    if (day === from) continue;
    const share = Math.max(...resources.map(({ capacityMin }, r) => (moved.minutes[r]! > 0 ? (after[r]![day]! + moved.minutes[r]!) / Math.max(EPSILON_MIN, capacityMin[day]!) : 0)));
    if (share < least) { least = share; best = day; }
  }
  return best;
}
