import { describe, expect, it } from 'vitest';
import type { PlaceByWeek } from '../../desk/contract.ts';
import { layCapacity } from './capacityLayout.ts';

const place = (weeks: readonly (readonly [number, number])[]): PlaceByWeek => ({
  place: 'g', title: 'Glass', kind: 'glass', basins: 100, usableBasins: 97, basinM2: 3,
  weeks: weeks.map(([standing, sown], i) => ({ from: `2026-04-0${i + 1}`, to: '', standing, sown, binds: standing + sown >= 97 })),
});

describe('layCapacity', () => {
  it('stacks lots to be sown on lots that stand, to one scale', () => {
    const { bars, limitY, marks } = layCapacity(place([[50, 0], [25, 72]]));
    const perBasin = bars[0]!.standingHeight / 50;
    expect(bars[1]!.standingHeight).toBeCloseTo(25 * perBasin, 9);
    expect(bars[1]!.sownHeight).toBeCloseTo(72 * perBasin, 9);
    expect(bars[1]!.sownY + bars[1]!.sownHeight).toBeCloseTo(bars[1]!.standingY, 9);
    expect(bars[1]!.sownY).toBeCloseTo(limitY, 9);
    expect(bars.map(({ binds }) => binds)).toEqual([false, true]);
    expect(marks.map(({ text }) => text)).toEqual(['0', '50', '100']);
  });
  it('ends with the last week that holds plants, and dates every fourth week', () => {
    const { bars } = layCapacity(place([[1, 0], [1, 0], [1, 0], [1, 0], [0, 2], [0, 0], [0, 0]]));
    expect(bars).toHaveLength(5);
    expect(bars.map(({ label }) => label !== undefined)).toEqual([true, false, false, false, true]);
  });
});
