import { describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { OrderLine } from '../../greenhouse/schema/tableRows.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { massAt, type LotSupply } from './lotSupply.ts';
import { openLines, outlookOrders } from './outlookOrders.ts';

const CARD = { id: 'leaf', title: 'Leaf', soldBy: 'head', plantsPerUnit: 1, harvest: { keepsDays: 2 } } as CropCard;
const line = (order: string, units: number, due: string): OrderLine => ({ order, line: 1, customer: 'Inn', crop: 'leaf', units, due });
const state = (lines: readonly OrderLine[], delivered: Record<string, number> = {}) =>
  ({ crops: { leaf: CARD }, delivered, orders: Object.fromEntries(lines.map((is) => [`${is.order}/${is.line}`, is])) }) as unknown as GreenhouseState;
/** In member m of 100 the lot has m units; in the middle future 50. */
const even = (lot: string, sown = '2026-02-01'): LotSupply => ({ lot, crop: 'leaf', sown, unitsPerPlant: () => 0, unitsOn: (_, member) => (member < 0 ? 50 : member) });
const outlook = (lines: readonly OrderLine[], supplies: readonly LotSupply[], delivered = {}) => outlookOrders(state(lines, delivered), '2026-03-01', supplies, 100, 'orders');

describe('outlookOrders', () => {
  it('gives the share of futures in which a line is filled, and the mean that is missing', () => {
    const [order] = outlook([line('A', 31, '2026-03-02')], [even('L1')]);
    // Members 31 to 99 fill it; the mean shortfall is (31 + 30 + ... + 1) / 100 = 4.96.
    expect(order).toMatchObject({ chance: 0.69, expectedShortUnits: 5, status: 'at risk', lots: [{ lot: 'L1', units: 31 }] });
  });

  it('lets earlier lines take first: later ones carry the risk of both', () => {
    const [first, second] = outlook([line('B', 30, '2026-03-03'), line('A', 30, '2026-03-02')], [even('L1')]);
    expect([first!.order, first!.chance]).toEqual(['A', 0.7]);
    expect([second!.order, second!.chance]).toEqual(['B', 0.4]);
    expect(second!.lots).toEqual([{ lot: 'L1', units: 20 }]);
    expect(second!.sentence).toContain('earlier orders take the rest');
  });

  it('serves from the oldest lot first and then from the next', () => {
    const [order] = outlook([line('A', 70, '2026-03-02')], [even('L2', '2026-02-05'), even('L1', '2026-02-01')]);
    expect(order!.lots).toEqual([{ lot: 'L1', units: 50 }, { lot: 'L2', units: 20 }]);
    // Both lots go up together (common random numbers by member): 2 m >= 70.
    expect(order!.chance).toBe(0.65);
  });

  it('knows delivered, partly delivered and overdue lines, and crops without lots or cards', () => {
    const lines = [line('A', 30, '2026-02-20'), line('B', 30, '2026-03-02'), { ...line('C', 5, '2026-03-02'), crop: 'rocket' }];
    const [late, part, other] = outlook(lines, [even('L1')], { 'A/1': 30, 'B/1': 20 });
    expect(late).toMatchObject({ status: 'delivered', chance: 1, expectedShortUnits: 0 });
    expect(part!.chance).toBe(0.9);
    expect(other).toMatchObject({ status: 'short', chance: 0, expectedShortUnits: 5 });
    expect(openLines(state(lines), '2026-03-01').map(({ line: { order }, leaves }) => [order, leaves])).toEqual([['A', '2026-03-01'], ['B', '2026-03-02']]);
    expect(outlook([line('A', 3, '2026-03-02')], [])[0]).toMatchObject({ status: 'short', sentence: expect.stringContaining('no lot is ready by then') });
  });
});

describe('massAt', () => {
  /** A lognormal with median 100 and ln sd 0.3: its quantiles are exp(ln 100 + 0.3 z). */
  const at = (z: number) => 100 * Math.exp(0.3 * z);
  const quantiles = { p05: at(-1.6448536), p25: at(-0.6744898), p50: 100, p75: at(0.6744898), p95: at(1.6448536) };
  it('returns a lognormal exactly, between its quantiles and beyond them', () => {
    for (const z of [-2.5, -1.2, -0.3, 0, 0.5, 1.1, 2.2]) expect(massAt(quantiles, z) / at(z)).toBeCloseTo(1, 6);
  });
});
