import type { Sowing } from '../../desk/contract.ts';
import { count } from '../words/figures.ts';
import { daysBetween } from '../words/times.ts';

interface SowingWeek { readonly from: string; readonly sowings: readonly Sowing[] }

/** Sowings by week, counted from the first day of the plan. */
export function weeksOfSowings(sowings: readonly Sowing[], date: string): SowingWeek[] {
  const weeks = new Map<number, Sowing[]>();
  for (const sowing of sowings) {
    const week = Math.floor(daysBetween(date, sowing.sowDate) / 7);
    weeks.set(week, [...(weeks.get(week) ?? []), sowing]);
  }
  return [...weeks].sort(([a], [b]) => a - b).map(([week, list]) => ({ from: new Date(Date.parse(`${date}T00:00:00Z`) + week * 7 * 86_400_000).toISOString().slice(0, 10), sowings: list }));
}

export function weekNote(sowings: readonly Sowing[]): string {
  const trays = sowings.reduce((sum, { trays }) => sum + trays, 0);
  return `${count(sowings.length, 'lot')}, ${count(trays, 'tray')}`;
}
