import { describe, expect, it } from 'vitest';
import type { BasinType } from '../../greenhouse/schema/greenhouseFile.ts';
import type { BasinState } from '../../greenhouse/state.ts';
import { transpirationLPerM2H, LETTUCE_UNDER_GLASS } from '../../science/climate/transpiration.ts';
import { prepareTranspiration } from '../../science/climate/transpirationTable.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import type { LotExpectation } from './forecastLots.ts';
import { litresBetween } from './waterUse.ts';

const TYPE: BasinType = { id: 'small', lengthMm: 2000, widthMm: 1000, depthMm: 200, emptyKg: 50, rafts: 4, raftKg: 1.5, levelMinShare: 0.8, raftGapMm: 10, rimAboveRaftsMm: 60 };
const HOURS = 96;
const HOUR_MS = 3_600_000;
const START = Date.parse('2026-03-01T00:00:00Z');
const constant = (value: number) => new Float64Array(HOURS).fill(value);
/** The canopy and climate of Graamans et al. 2017, figure 6, set C: 140 umol/(m2 s), 21 C, 73 %. */
const AIR = { hours: HOURS, airC: constant(21), rhPct: constant(73), ppfdUmolM2S: constant(140) };
const CLIMATES = { byBay: { glass: { transpiration: prepareTranspiration(AIR, LETTUCE_UNDER_GLASS) } }, startMs: START, hours: HOURS, utcOffsetH: 0, weatherOrigin: [] } as unknown as BayClimates;
const CANOPY = { leafAreaIndex: 3, groundCover: 0.95 };
const basin = (placed: string | undefined): BasinState => ({ id: 'B1', type: TYPE, bay: 'glass', berth: 'B1', planting: placed === undefined ? undefined : { lot: 'L', crop: 'leaf', basin: 'B1', stage: 's', sown: placed, placed, plants: 1 }, filled: undefined, imagedAt: undefined, scans: [], washedAt: undefined, needsWash: false });
const LOT = { forecast: { dates: ['2026-03-01', '2026-03-02', '2026-03-03', '2026-03-04'].map((date) => ({ date, ...CANOPY })) } } as unknown as LotExpectation;
const PER_HOUR = 2 * transpirationLPerM2H({ airC: 21, rhPct: 73, ppfdUmolM2S: 140, ...CANOPY }, LETTUCE_UNDER_GLASS);

describe('litresBetween', () => {
  it('sums what the canopy model says for each hour, over the area of the basin', () => {
    const litres = litresBetween(basin('2026-03-01'), LOT, CLIMATES);
    expect(litres(START, START + 24 * HOUR_MS) / (24 * PER_HOUR)).toBeCloseTo(1, 3);
    expect(litres(START + 1.5 * HOUR_MS, START + 2 * HOUR_MS) / (0.5 * PER_HOUR)).toBeCloseTo(1, 3);
    expect(litres(START, START + 10 * HOUR_MS) + litres(START + 10 * HOUR_MS, START + 30 * HOUR_MS)).toBeCloseTo(litres(START, START + 30 * HOUR_MS), 9);
  });
  it('takes nothing before the plants came, from an empty basin, or without a forecast', () => {
    expect(litresBetween(basin('2026-03-02'), LOT, CLIMATES)(START, START + 24 * HOUR_MS)).toBe(0);
    expect(litresBetween(basin(undefined), LOT, CLIMATES)(START, START + 24 * HOUR_MS)).toBe(0);
    expect(litresBetween(basin('2026-03-01'), undefined, CLIMATES)(START, START + 24 * HOUR_MS)).toBe(0);
  });
});
