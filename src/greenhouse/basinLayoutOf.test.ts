import { describe, expect, it } from 'vitest';
import { basinLayoutOf } from './basinLayoutOf.ts';
import type { BasinType } from './schema/greenhouseFile.ts';

const TYPE: BasinType = { id: 'standard', lengthMm: 2400, widthMm: 1200, depthMm: 190, emptyKg: 58, rafts: 6, raftKg: 1.6, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };

describe('layout of a basin', () => {
  it('divides rafts and positions so that both are nearest to square, and takes all plants', () => {
    const { rafts, innerMm, rimHeightMm } = basinLayoutOf(TYPE, { stage: undefined, plants: 69 });
    expect(innerMm).toEqual([2400, 1200]);
    expect(rimHeightMm).toBe(60);
    expect(rafts.map(({ centreMm }) => centreMm)).toEqual([[-800, -300], [0, -300], [800, -300], [-800, 300], [0, 300], [800, 300]]);
    expect(rafts[0]!.sizeMm).toEqual([790, 590]);
    expect(rafts[0]!.positions).toHaveLength(12);
    expect(rafts[0]!.positions[0]).toEqual({ id: 1, xMm: -296.25, yMm: expect.closeTo(-590 / 3, 9) });
    expect(rafts[0]!.positions[4]!.yMm).toBeCloseTo(0, 9);
  });

  it('follows what the files state', () => {
    const { rafts } = basinLayoutOf({ ...TYPE, raftsAlong: 6 }, { stage: { raftPattern: { along: 2, across: 5 } }, plants: 69 });
    expect(rafts.map(({ centreMm }) => centreMm[1])).toEqual([0, 0, 0, 0, 0, 0]);
    expect(rafts[5]!.positions).toHaveLength(10);
  });

  it('lowers the rafts with the water', () => {
    expect(basinLayoutOf(TYPE, { stage: undefined, plants: 6, fullShare: 0.8 }).rimHeightMm).toBeCloseTo(98, 9);
  });
});
