import { describe, expect, it } from 'vitest';
import type { OrderOutlook } from '../../desk/contract.ts';
import { dayNote, daysOfOrders, ordersSentence } from './daysOfOrders.ts';

const order = (id: string, due: string, chance: number, status: OrderOutlook['status']): OrderOutlook => ({ order: id, line: 1, customer: '', crop: '', units: 1, unit: 'head', due, chance, expectedShortUnits: 0, lots: [], status, sentence: '', why: '' });
const orders = [order('a', '2026-04-15', 0.99, 'likely'), order('b', '2026-04-14', 0.6, 'at risk'), order('c', '2026-04-15', 0.2, 'short'), order('d', '2026-04-13', 1, 'delivered')];

describe('orders by day', () => {
  it('sorts days by date and lines by chance, the weakest first', () => {
    expect(daysOfOrders(orders, false).map((day) => [day.due, day.orders.map((is) => is.order).join('')])).toEqual([['2026-04-13', 'd'], ['2026-04-14', 'b'], ['2026-04-15', 'ca']]);
  });
  it('shows only what may fall short when asked to', () => expect(daysOfOrders(orders, true).flatMap((day) => day.orders.map((is) => is.order))).toEqual(['b', 'c']));
  it('notes of a day how many lines may fall short', () => {
    expect(dayNote(orders, 'tomorrow')).toBe('tomorrow, 4\u00a0lines, 2 may fall short');
    expect(dayNote(orders.slice(0, 1), 'today')).toBe('today, 1\u00a0line');
  });
  it('sums them up in a sentence', () => {
    expect(ordersSentence(orders)).toBe('3\u00a0order lines open: 1 is expected to fall short, 1 is at risk, the others are likely to leave complete on the day.');
    expect(ordersSentence(orders.slice(0, 1))).toBe('1\u00a0order line open; all are likely to leave complete on the day.');
    expect(ordersSentence(orders.slice(3))).toBe('No order line is open.');
  });
});
