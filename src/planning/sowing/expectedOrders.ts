import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import { addDays, daysBetween } from '../day/shiftDay.ts';
import { weekdayOf } from './sowingCalendar.ts';

/** Units of a crop that are expected to be ordered for a span of days beyond the order book. */
export interface ExpectedOrders {
  /** Units of these days on average. */
  units(crop: string, dates: readonly string[]): number;
  /** Standard deviation of a week's units of a crop. */
  weekSd(crop: string): number;
  readonly fromDate: string;
}

const PAST_DAYS = 56;
/** Spread of a week's orders where fewer than three whole weeks are known (common practice, no source). */
const USUAL_SPREAD = 0.15;

/**
 * Orders like those of the last eight weeks and of the order book, by crop and day of the week. Their spread from week to week
 * is taken as normal and as independent. Where nothing is known nothing is expected.
 */
export function expectOrders(lines: readonly OrderLine[], date: string, ordersKnownDays: number): ExpectedOrders {
  const fromDate = addDays(date, Math.floor(ordersKnownDays));
  const seen = lines.filter(({ due }) => due >= addDays(date, -PAST_DAYS) && due < fromDate);
  const first = seen.reduce((least, { due }) => (due < least ? due : least), fromDate);
  const days = daysBetween(first, fromDate);
  const weekdayDays = new Map<number, number>();
  for (let day = 0; day < days; day++) add(weekdayDays, weekdayOf(addDays(first, day)), 1);
  const byWeekday = new Map<string, number>();
  const byWeek = new Map<string, number>();
  for (const { crop, due, units } of seen) {
    add(byWeekday, `${crop}/${weekdayOf(due)}`, units);
    add(byWeek, `${crop}/${Math.floor(daysBetween(first, due) / 7)}`, units);
  }
  const weeks = Math.floor(days / 7);
  const spreadOf = (crop: string): number => {
    if (weeks < 3) return USUAL_SPREAD;
    const totals = Array.from({ length: weeks }, (_, week) => byWeek.get(`${crop}/${week}`) ?? 0);
    const mean = totals.reduce((sum, each) => sum + each, 0) / weeks;
    return mean === 0 ? 0 : Math.sqrt(totals.reduce((sum, each) => sum + (each - mean) ** 2, 0) / (weeks - 1)) / mean;
  };
  const unitsOn = (crop: string, weekday: number): number => (byWeekday.get(`${crop}/${weekday}`) ?? 0) / Math.max(1, weekdayDays.get(weekday) ?? 1);
  return {
    fromDate,
    units: (crop, dates) => dates.reduce((sum, each) => sum + unitsOn(crop, weekdayOf(each)), 0),
    weekSd: (crop) => spreadOf(crop) * [1, 2, 3, 4, 5, 6, 7].reduce((sum, weekday) => sum + unitsOn(crop, weekday), 0),
  };
}

const add = <K>(map: Map<K, number>, key: K, amount: number): void => void map.set(key, (map.get(key) ?? 0) + amount);
