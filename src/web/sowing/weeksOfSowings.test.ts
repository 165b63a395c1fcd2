import { describe, expect, it } from 'vitest';
import type { Sowing } from '../../desk/contract.ts';
import { weekNote, weeksOfSowings } from './weeksOfSowings.ts';

const sowing = (sowDate: string, trays: number): Sowing => ({ sowDate, crop: 'leaf', cropTitle: 'Leaf', seeds: 1, trays, plants: 1, basins: [], harvestFrom: '', harvestTo: '', unit: 'head', meanUnits: 1, sureUnits: 1, orders: [], forExpectedUnits: 0 });

describe('sowings by week', () => {
  it('counts weeks from the first day of the plan and leaves out weeks without sowings', () => {
    const weeks = weeksOfSowings([sowing('2026-04-14', 1), sowing('2026-04-20', 2), sowing('2026-05-05', 3)], '2026-04-14');
    expect(weeks.map(({ from, sowings }) => [from, sowings.length])).toEqual([['2026-04-14', 2], ['2026-05-05', 1]]);
  });
  it('notes lots and trays', () => expect(weekNote([sowing('2026-04-14', 1), sowing('2026-04-14', 4)])).toBe('2\u00a0lots, 5\u00a0trays'));
});
