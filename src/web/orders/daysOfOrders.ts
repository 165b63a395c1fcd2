import type { OrderOutlook } from '../../desk/contract.ts';
import { count } from '../words/figures.ts';

/** Order lines by the day on which they are due, the weakest first within a day. */
export function daysOfOrders(orders: readonly OrderOutlook[], onlyWeak: boolean): { readonly due: string; readonly orders: readonly OrderOutlook[] }[] {
  const shown = orders.filter((order) => !onlyWeak || order.status === 'at risk' || order.status === 'short');
  const days = [...new Set(shown.map((order) => order.due))].sort();
  return days.map((due) => ({ due, orders: shown.filter((order) => order.due === due).sort((a, b) => a.chance - b.chance || (a.order < b.order ? -1 : 1)) }));
}

export function ordersSentence(orders: readonly OrderOutlook[]): string {
  const open = orders.filter((order) => order.status !== 'delivered');
  const atRisk = open.filter((order) => order.status === 'at risk').length;
  const short = open.filter((order) => order.status === 'short').length;
  if (open.length === 0) return 'No order line is open.';
  const lines = `${count(open.length, 'order line')} open`;
  if (atRisk + short === 0) return `${lines}; all are likely to leave complete on the day.`;
  const parts = [...(short ? [`${short} ${short === 1 ? 'is' : 'are'} expected to fall short`] : []), ...(atRisk ? [`${atRisk} ${atRisk === 1 ? 'is' : 'are'} at risk`] : [])];
  return `${lines}: ${parts.join(', ')}, the others are likely to leave complete on the day.`;
}

/** What is to be said of one day: when it is, how many lines, how many of them may fall short. */
export function dayNote(orders: readonly OrderOutlook[], when: string): string {
  const weak = orders.filter((order) => order.status === 'at risk' || order.status === 'short').length;
  return `${when}, ${count(orders.length, 'line')}${weak > 0 ? `, ${weak} may fall short` : ''}`;
}
