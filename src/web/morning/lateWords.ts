import type { PlanSheet, StopOutcomeView } from '../../desk/contract.ts';
import { clockTime } from '../words/times.ts';

/** Named one by one; more are counted. */
const MOST_NAMED = 3;

/** Stops that should be over by now and that nobody has marked, the longest overdue first, a sentence each. */
export function lateWords({ visits, timeZone }: PlanSheet, outcomes: Readonly<Record<string, StopOutcomeView>>, nowAt: string, titleOf: (id: string) => string): string[] {
  const overdue = visits.flatMap(({ visit, basin, stops }) => stops
    .filter((stop) => stop.result === undefined && outcomes[`${visit}/${stop.stop}`] === undefined && Date.parse(stop.endAt) < Date.parse(nowAt) - 60_000)
    .map(({ station, endAt }) => ({ basin, station, endAt, minutes: Math.floor((Date.parse(nowAt) - Date.parse(endAt)) / 60_000) }))).sort((a, b) => b.minutes - a.minutes);
  const named = overdue.slice(0, MOST_NAMED).map(({ basin, station, endAt, minutes }) => `Basin ${basin} at ${titleOf(station)} was to be done at ${clockTime(endAt, timeZone)} and is not marked, ${minutes} ${minutes === 1 ? 'minute' : 'minutes'} ago.`);
  const more = overdue.length - named.length;
  return more === 0 ? named : [...named, `${more} more ${more === 1 ? 'stop is' : 'stops are'} overdue.`];
}
