import { describe, expect, it } from 'vitest';
import { compareSowing } from './compareSowing.ts';
import type { Sowing, SowingPlan } from './sowingPlan.ts';

const sowing = (sowDate: string, plants: number): Sowing => ({ sowDate, crop: 'leaf', cropTitle: 'Leaf', seeds: plants, trays: 1, plants, basins: [], harvestFrom: '', harvestTo: '', unit: 'head', meanUnits: 0, sureUnits: 0, orders: [], forExpectedUnits: 0 });
const plan = (sowings: readonly Sowing[], shortUnits: number, cost: number): SowingPlan => ({
  greenhouse: 'g', name: 'G', date: '2026-11-25', weeks: 4, currency: 'GBP', serviceLevel: 0.97, sentence: '', sowings, capacity: [], limits: [], worth: [], notes: [],
  crops: [{ crop: 'leaf', title: 'Leaf', unit: 'head', weeks: [{ from: '', to: '', orderedUnits: 0, expectedUnits: 0, coveredUnits: 0, shortUnits }] }],
  proof: { cost, bound: cost, gapPct: 0.5, solver: '', columns: 0, rows: 0, wholeNumbers: 0 },
});

describe('compareSowing', () => {
  it('says in words what is sown more, less, new and no longer, what falls short, and what it costs', () => {
    const before = plan([sowing('2026-11-26', 100), sowing('2026-11-30', 200), sowing('2026-12-03', 50)], 10, 1000);
    const after = plan([sowing('2026-11-26', 100), sowing('2026-11-30', 260), sowing('2026-12-07', 40)], 25, 1060.5);
    const { sentences, cost } = compareSowing(before, after);
    expect(cost).toBeCloseTo(60.5, 9);
    expect(sentences).toEqual([
      'Sow 260 instead of 200 plants of Leaf on 2026-11-30.',
      'Do not sow Leaf on 2026-12-03; 50 plants were planned.',
      'Sow 40 plants of Leaf on 2026-12-07, which were not planned.',
      '15 heads more of Leaf cannot be covered with the chance asked for.',
      'Over the horizon this costs 60.50 GBP more, shortage counted; plans are proven to 0.5 %, so that smaller differences say little.',
    ]);
  });
  it('says so where nothing changes', () => expect(compareSowing(plan([], 0, 5), plan([], 0, 5)).sentences[0]).toBe('No sowing changes.'));
});
