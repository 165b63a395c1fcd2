import { addDays, daysBetween } from '../day/shiftDay.ts';
import type { SowingBlock } from './sowingProblem.ts';

/** Days and spans that a sowing plan counts in. Day 0 is its first day. */
export interface SowingCalendar {
  readonly date: string;
  readonly weeks: number;
  readonly sowDays: readonly number[];
  readonly blocks: readonly SowingBlock[];
  readonly dateOf: (day: number) => string;
  readonly dayOf: (date: string) => number;
  /** Index of the block that holds a day; undefined outside. */
  readonly blockAt: (day: number) => number | undefined;
}

/** 1 is Monday. */
export const weekdayOf = (date: string): number => ((Math.floor(Date.parse(`${date}T00:00:00Z`) / 86_400_000) + 3) % 7) + 1;

/**
 * Lots are sown on the given days of the week for so many weeks; deliveries and capacities are counted in the spans between
 * those days, `daysAfter` days beyond the last sowing. Weeks are counted from the first day.
 */
export function sowingCalendar(date: string, weeks: number, weekdays: readonly number[], daysAfter: number): SowingCalendar {
  const isSowDay = (day: number) => weekdays.includes(weekdayOf(addDays(date, day)));
  const days = weeks * 7 + daysAfter;
  const sowDays = Array.from({ length: weeks * 7 }, (_, day) => day).filter(isSowDay);
  const starts = Array.from({ length: days }, (_, day) => day).filter((day) => day === 0 || isSowDay(day));
  const blocks = starts.map((fromDay, i) => ({ fromDay, toDay: (starts[i + 1] ?? days) - 1, week: Math.floor(fromDay / 7) }));
  const blockOfDay = new Int32Array(days);
  blocks.forEach((block, i) => blockOfDay.fill(i, block.fromDay, block.toDay + 1));
  return { date, weeks, sowDays, blocks, dateOf: (day) => addDays(date, day), dayOf: (other) => daysBetween(date, other), blockAt: (day) => blockOfDay[day] };
}
