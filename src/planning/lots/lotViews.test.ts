import { describe, expect, it } from 'vitest';
import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import type { BasinType } from '../../greenhouse/schema/greenhouseFile.ts';
import type { BasinState, GreenhouseState } from '../../greenhouse/state.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { daysOverStage, lotsWithoutCard, thermalDays, viewLots } from './lotViews.ts';

const TYPE: BasinType = { id: 'small', lengthMm: 2000, widthMm: 1000, depthMm: 200, emptyKg: 50, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
const CARD = {
  id: 'leaf', stages: [
    { id: 'nursery', title: 'Nursery', bay: 'nursery', plantsPerM2: 100, days: 14, baseC: 4 }, { id: 'young', title: 'Young', bay: 'glass', plantsPerM2: 60, days: 10, baseC: 4 },
    { id: 'finish', title: 'Finishing', bay: 'glass', plantsPerM2: 25, degreeDays: 320, baseC: 4 },
  ],
} as unknown as CropCard;
const stand = (basin: string, stage: string, placed: string, plants: number, sown = '2026-01-01'): BasinState =>
  ({ id: basin, type: TYPE, bay: 'glass', berth: basin, planting: { lot: 'L1', crop: 'leaf', basin, stage, sown, placed, plants }, filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false });
const stateOf = (basins: readonly BasinState[], crops = { leaf: CARD }) => ({ crops, basins: Object.fromEntries(basins.map((is) => [is.id, is])) }) as unknown as GreenhouseState;
/** Twenty degrees in the glass bay for a hundred days from 1 February. */
const CLIMATES = { byBay: { glass: { inside: { airC: new Float64Array(2400).fill(20) } } }, startMs: Date.parse('2026-02-01T00:00:00Z'), hours: 2400, utcOffsetH: 0, weatherOrigin: [] } as unknown as BayClimates;

describe('viewLots', () => {
  it('counts back to the planting and ahead to the stages to come', () => {
    const [lot] = viewLots(stateOf([stand('B1', 'young', '2026-03-01', 110), stand('B2', 'young', '2026-03-02', 120)]), CLIMATES);
    // Placed 2 March; 14 days of nursery before, 10 of this stage.
    expect(lot).toMatchObject({ planting: '2026-02-16', placed: '2026-03-02', stageEnds: '2026-03-12', plants: 230 });
    // What really stands here: 230 plants on 4 m2; the others as the card plans.
    expect(lot!.densities).toEqual([{ date: '2026-02-16', plantsPerM2: 100 }, { date: '2026-03-02', plantsPerM2: 57.5 }, { date: '2026-03-12', plantsPerM2: 25 }]);
    expect(daysOverStage(lot!, '2026-03-14')).toBe(2);
  });
  it('plans a stage in thermal time by the climate of its bay: 320 degree days at 16 a day are 20 days', () => {
    expect(viewLots(stateOf([stand('B1', 'finish', '2026-03-01', 50)]), CLIMATES)[0]!.stageEnds).toBe('2026-03-21');
  });
  it('never plants before the seed was sown', () => {
    expect(viewLots(stateOf([stand('B1', 'young', '2026-03-01', 50, '2026-02-25')]), CLIMATES)[0]!.planting).toBe('2026-02-25');
  });
  it('leaves out, and names, a crop that no card describes', () => {
    const state = stateOf([stand('B1', 'young', '2026-03-01', 50)], {} as { leaf: CropCard });
    expect(viewLots(state, CLIMATES)).toEqual([]);
    expect(lotsWithoutCard(state)).toEqual([{ lot: 'L1', crop: 'leaf' }]);
  });
});

describe('thermalDays', () => {
  it('sums the days above the base and goes on at their mean where they end', () => {
    expect(thermalDays(30, 4, [14, 14, 14, 14])).toBe(3);
    expect(thermalDays(100, 4, [14, 14])).toBe(10);
    expect(thermalDays(20, 4, [2, 14, 14])).toBe(3);
    expect(thermalDays(150, 4, [])).toBe(10);
  });
});
