import { describe, expect, it } from 'vitest';
import { layLoads } from './loadLayout.ts';

const row = { id: 'crew', title: 'Crew', loadMin: [30, 150, 0], levelledMin: [30, 100, 50], capacityMin: [50, 100, 100] } as const;
const dates = ['2026-04-01', '2026-04-02', '2026-04-03'];

describe('layLoads', () => {
  it('splits a day that is over at its capacity, to one scale, and marks where it stands after the moves', () => {
    const { bars, marks } = layLoads(row, dates);
    const perMinute = bars[0]!.height / 30;
    expect(bars.map(({ isOver }) => isOver)).toEqual([false, true, false]);
    expect(bars[1]!.height).toBeCloseTo(100 * perMinute, 9);
    expect(bars[1]!.overHeight).toBeCloseTo(50 * perMinute, 9);
    expect(bars[1]!.levelledY).toBeCloseTo(bars[1]!.y, 9);
    expect(bars.map(({ moves }) => moves)).toEqual([false, true, true]);
    expect(marks.map(({ text }) => text)).toEqual(['0', '0.8', '1.7']);
  });
});
