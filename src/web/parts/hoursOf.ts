import { clockTime } from '../words/times.ts';

export interface HourGroup<T> { readonly key: string; readonly title: string; readonly items: readonly T[]; readonly open: boolean }

const HOUR_MS = 3_600_000;

/**
 * Gathers things by the hour in which they begin, in order. Open at first: the hour that it is, or the next one in which
 * anything begins, or the first of all when the day is over.
 */
export function hoursOf<T>(items: readonly T[], beginsAt: (item: T) => string, nowAt: string, zone: string): readonly HourGroup<T>[] {
  const groups = new Map<number, T[]>();
  for (const item of items) {
    const hour = Math.floor(Date.parse(beginsAt(item)) / HOUR_MS);
    groups.set(hour, [...(groups.get(hour) ?? []), item]);
  }
  const hours = [...groups.keys()].sort((a, b) => a - b);
  const now = Math.floor(Date.parse(nowAt) / HOUR_MS);
  const current = hours.find((hour) => hour >= now) ?? hours[0];
  const words = (hour: number) => clockTime(new Date(hour * HOUR_MS).toISOString(), zone);
  return hours.map((hour) => ({ key: String(hour), title: `${words(hour)} to ${words(hour + 1)}`, items: groups.get(hour) ?? [], open: hour === current }));
}
