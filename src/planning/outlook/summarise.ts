import { Temporal } from 'temporal-polyfill';
import { localClock } from '../day/shiftDay.ts';
import type { MorningPlan } from '../morningPlan.ts';
import { countOf } from '../words/plainWords.ts';

/** The day in one plain sentence: how much, until when, what is left out, what is at risk. */
export function summarise(plan: Omit<MorningPlan, 'planId' | 'sentence'>): string {
  const { counts, visits, leftOut, timeline, feeds, orders, timeZone } = plan;
  const weekday = Temporal.PlainDate.from(plan.date).toLocaleString('en-GB', { weekday: 'long', day: 'numeric', month: 'long' });
  const over = plan.history === undefined ? '' : soFarWords(plan.history);
  if (visits.length === 0 && leftOut.length === 0) return `${weekday}${over}: nothing ${over === '' ? '' : 'more '}has to be moved today.`;
  const finish = localClock(Date.parse(timeline.finishAt), timeZone);
  const bound = localClock(Date.parse(timeline.boundAt), timeZone);
  const mustOut = leftOut.filter(({ must }) => must).length;
  const outs = leftOut.length === 0 ? 'nothing left out' : `${countOf(leftOut.length, 'visit')} left out${mustOut === 0 ? '' : `, ${mustOut} of them needed today`}`;
  const risky = orders.filter(({ status, due }) => (status === 'at risk' || status === 'short') && due <= plan.date).length;
  return `${weekday}${over}: ${countOf(counts.visits, over === '' ? 'visit' : 'more visit')} (${counts.mustVisits} needed today, ${outs}) and ${countOf(feeds.length, 'feed')}; the last basin is back at ${finish}, and no plan of these visits can end before ${bound}; ${risky === 0 ? 'all of today\'s order lines are likely' : `${countOf(risky, 'order line')} of today at risk`}.`;
}

function soFarWords(history: NonNullable<MorningPlan['history']>): string {
  const failed = history.filter(({ stops }) => stops.some(({ result }) => result === 'failed')).length;
  if (history.length === 0) return ', from now on';
  return `, ${countOf(history.length - failed, 'visit')} done${failed === 0 ? '' : ` and ${failed} failed`} so far`;
}
