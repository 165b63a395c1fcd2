import { describe, expect, it } from 'vitest';
import type { LotOutlook, ReadingRange, WaterBand } from '../../desk/contract.ts';
import { standingOf, stripOf } from './bandStrip.ts';
import { roundTicks } from '../parts/roundTicks.ts';
import { layFan } from './fanLayout.ts';
import { sparkPath } from './sparkPath.ts';

const band = (value?: number): WaterBand => ({ name: 'potassium', symbol: 'K⁺', unit: 'mmol/L', low: 4, high: 8, target: 6, value });

describe('a band strip', () => {
  it('says below, within, above, not known; the edges are within', () => {
    expect([3.99, 4, 8, 8.01, undefined].map((value) => standingOf(band(value)))).toEqual(['below', 'within', 'within', 'above', 'not known']);
  });
  it('puts target and value in proportion between the edges of the band', () => {
    const { low, high, target, value } = stripOf(band(7));
    expect(target).toBeCloseTo((low + high) / 2, 9);
    expect((value! - low) / (high - low)).toBeCloseTo(0.75, 9);
  });
  it('keeps a value far outside on the strip, and draws none where none is known', () => {
    expect(stripOf(band(500)).value).toBe(193);
    expect(stripOf(band(-5)).value).toBe(7);
    expect(stripOf(band()).value).toBeUndefined();
  });
});

const quantiles = (p50: number) => ({ p05: p50 * 0.8, p25: p50 * 0.9, p50, p75: p50 * 1.1, p95: p50 * 1.2 });
const lot = {
  lot: 'L1', days: [['2026-04-10', 10], ['2026-04-11', 20], ['2026-04-12', 40]].map(([date, mass]) => ({ date, freshG: quantiles(mass as number), dryG: quantiles(1), readyShare: 0 })),
  samples: [{ date: '2026-04-08', meanFreshG: 5, plants: 4 }],
} as unknown as LotOutlook;
const frame = { width: 140, height: 120, left: 20, right: 20, top: 10, bottom: 10 };

describe('a forecast fan', () => {
  const fan = layFan(lot, frame, [])!;
  it('reaches from the first sample to the last day, and from 0 to 5 % above the highest edge', () => {
    expect([fan.x('2026-04-08'), fan.x('2026-04-10'), fan.x('2026-04-12')]).toEqual([20, 70, 120]);
    expect([fan.y(0), fan.y(48 * 1.05)]).toEqual([110, 10]);
  });
  it('draws the median through the days and closes its bands', () => {
    expect(fan.middle).toBe('M70 90.2L95 70.3L120 30.6');
    expect(fan.outer.split('L')).toHaveLength(6);
    expect(fan.outer.endsWith('Z')).toBe(true);
  });
  it('puts samples where they were weighed', () => {
    expect(fan.samples).toHaveLength(1);
    expect(fan.samples[0]).toMatchObject({ x: 20, words: '2026-04-08: 5 g, mean of 4 plants' });
  });
  it('gives nothing for less than two days', () => expect(layFan({ ...lot, days: lot.days.slice(0, 1) }, frame, [])).toBeUndefined());
  it('marks round numbers', () => expect([roundTicks(237, 5), roundTicks(0.9, 5), roundTicks(50.4, 5)]).toEqual([[0, 50, 100, 150, 200], [0, 0.2, 0.4, 0.6000000000000001, 0.8], [0, 20, 40]]));
});

describe('a line through readings', () => {
  const range = (hours: number[]): ReadingRange => ({ quantity: 'pH', title: '', unit: '', count: hours.length, least: 5, most: 7, last: 6, lastAt: '', points: hours.map((hour, index) => ({ at: new Date(hour * 3_600_000).toISOString(), value: index % 2 ? 7 : 5 })) });
  it('goes from edge to edge', () => expect(sparkPath(range([0, 1, 2]), 106, 16)).toBe('M3.0 13.0L53.0 3.0L103.0 13.0'));
  it('breaks where nothing was read', () => expect(sparkPath(range([0, 1, 2, 3, 4, 5, 40, 41]), 106, 16).match(/M/g)).toHaveLength(2));
  it('lies in the middle when nothing changes', () => expect(sparkPath({ ...range([0, 1]), least: 6, most: 6 }, 106, 16)).toBe('M3.0 8.0L103.0 8.0'));
});
