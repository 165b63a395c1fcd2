import { countOf, listOf } from '../words/plainWords.ts';
import type { SowingPlan } from './sowingPlan.ts';
import { addDays } from '../day/shiftDay.ts';

/** The plan in one sentence: what is sown this week, what stays short, what binds. */
export function sowingSentence(plan: Omit<SowingPlan, 'sentence'>): string {
  const weekEnd = addDays(plan.date, 6);
  const now = plan.sowings.filter(({ sowDate }) => sowDate <= weekEnd);
  const seeds = now.reduce((sum, each) => sum + each.seeds, 0);
  const first = now.length === 0 ? 'Nothing needs to be sown in the first seven days' : `Sow ${countOf(now.length, 'lot')} in the first seven days, ${countOf(now.reduce((sum, each) => sum + each.trays, 0), 'tray')} with ${seeds} seeds`;
  const short = plan.crops.map(({ title, unit, weeks }) => ({ title, unit, units: weeks.reduce((sum, week) => sum + week.shortUnits, 0) })).filter(({ units }) => units > 0);
  const shortWords = short.length === 0 ? 'every order known and expected is covered' : `${listOf(short.map(({ title, unit, units }) => `${countOf(units, unit)} of ${title}`))} cannot be covered`;
  const binding = [...plan.capacity.flatMap(({ title, weeks }) => (weeks.some(({ binds }) => binds) ? [`basins in ${title}`] : [])), ...plan.limits.flatMap(({ title, weeks }) => (weeks.some(({ binds }) => binds) ? [title.toLowerCase()] : []))];
  return `${first}; ${shortWords} with a chance of ${Math.round(plan.serviceLevel * 1000) / 10} %; ${binding.length === 0 ? 'no capacity binds' : `${listOf(binding)} ${binding.length === 1 && !binding[0]!.startsWith('basins') ? 'binds' : 'bind'} in some weeks`}.`;
}
