import { describe, expect, it } from 'vitest';
import type { LotExpectation } from '../lots/forecastLots.ts';
import { lotSupply } from './lotSupply.ts';

const DATES = ['2026-03-01', '2026-03-02', '2026-03-03', '2026-03-04', '2026-03-05', '2026-03-06', '2026-03-07', '2026-03-08'];
const spread = (g: number) => ({ p05: 0.8 * g, p25: 0.9 * g, p50: g, p75: 1.1 * g, p95: 1.2 * g });

/** Invented: 100 plants that gain 10 g a day from 100 g on 1 March, ready above 50 g, past their best above 125 g, kept two days once cut. */
const LOT = {
  view: { lot: 'L', sown: '2026-02-01', plants: 100, densities: [{ date: '2026-02-10', plantsPerM2: 20 }], card: { id: 'leaf', soldBy: 'head', plantsPerUnit: 1, cultivar: 'none', kind: 'leafy', harvest: { readyFreshG: 50, readyShare: 0.8, latestFreshG: 125, lossShare: 0, keepsDays: 2 }, growth: { model: 'two-state-lettuce', parameters: {}, seedlingDryMg: 1, seedlingSpread: 0.1 } } },
  input: { at: '2026-03-01' }, refusals: [], forecast: { basis: { plantLogSd: 0.01 }, dates: DATES.map((date, i) => ({ date, freshG: spread(100 + 10 * i), readyShare: 1 })) },
} as unknown as LotExpectation;
const sellable = (decided = {}, member = -1): boolean[] => { const supply = lotSupply(LOT, 1, 20, decided)!; return DATES.map((date) => supply.unitsOn(date, member) > 90); };

describe('what a lot may still give', () => {
  it('is over two days after the day on which its mean plant passes the weight above which quality falls', () => {
    // 130 g on 4 March: cut that day, kept until the 6th.
    expect(sellable()).toEqual([true, true, true, true, true, true, false, false]);
  });

  it('ends sooner in a future in which it grows faster', () => {
    const last = Array.from({ length: 20 }, (_, member) => sellable({}, member).lastIndexOf(true));
    expect([Math.min(...last), Math.max(...last)]).toEqual([3, 7]);
  });

  it('follows what people decided: held, or cut on a day', () => {
    expect(sellable({ holdUntil: '2026-03-06' })).toEqual(DATES.map(() => true));
    expect(sellable({ cutOn: '2026-03-02' })).toEqual([true, true, true, true, false, false, false, false]);
    // The day has passed and it still stands: it is cut today.
    expect(sellable({ cutOn: '2026-02-20' })).toEqual([true, true, true, false, false, false, false, false]);
  });
});
