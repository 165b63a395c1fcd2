import { describe, expect, it } from 'vitest';
import { comparable, watchScan } from '../../src/planning/imaging/watchScan.ts';
import { growPlants, inventPlants, inventScan } from './inventScan.ts';

const young = inventPlants(), old = growPlants(young, 1.5);
const LATER = { scan: 'fedcba9876543210', takenAt: '2026-03-05T08:00:00.000Z' } as const;
const forecast = (p50G: number) => ({ expected: { p05G: 0.8 * p50G, p50G, p95G: 1.2 * p50G } });
const noted = (...given: Parameters<typeof watchScan>) => watchScan(...given).map(({ raft, position, reason }) => `${raft}/${position} ${reason}`);

describe('plants of a scan to look at', () => {
  it('none where all grow alike, with or without a forecast', () => {
    expect(noted(inventScan(old, LATER), inventScan(young))).toEqual([]);
    expect(noted(inventScan(old, { ...LATER, ...forecast(150) }), inventScan(young, forecast(100)))).toEqual([]);
  });

  it('a plant far behind its fellows lags also where a forecast is known that is less sure than they are', () => {
    const now = old.map((plant, i) => (i === 7 ? { ...plant, volumeMm3: young[7]!.volumeMm3 * 1.2 } : plant));
    expect(noted(inventScan(now, LATER), inventScan(young))).toContain('1/8 lags');
    const notes = watchScan(inventScan(now, { ...LATER, ...forecast(150) }), inventScan(young, forecast(100))).filter(({ reason }) => reason === 'lags');
    expect(notes).toMatchObject([{ raft: 1, position: 8, reason: 'lags', sentence: expect.stringMatching(/changed by 20 % since the last scan; its fellows' is (49|50|51|52|53) %/) }]);
  });

  it('all lag where all grew much less than forecast', () => {
    expect(noted(inventScan(old, { ...LATER, ...forecast(300) }), inventScan(young, forecast(100))).filter((line) => line.endsWith('lags'))).toHaveLength(24);
  });

  it('one that was there and is not, in its place on the raft', () => {
    expect(noted(inventScan(old.filter((_, i) => i !== 20), LATER), inventScan(young))).toEqual(['2/9 gone']);
  });

  it('what cannot be compared is not: other cells, another version, another lot, another basin; the first scan has outsiders only', () => {
    const half = growPlants(young, 0.5), now = inventScan(half, LATER), before = inventScan(young);
    expect(noted(now, before)).toHaveLength(24);
    for (const other of [{ quality: { ...before.quality, cellMm: 4 } }, { quality: { ...before.quality, version: before.quality.version + 1 } }, { lot: 'L2' }, { basin: 'B002' }]) {
      expect(comparable(now, { ...before, ...other })).toBe(false);
      expect(noted(now, { ...before, ...other })).toEqual([]);
    }
    expect(noted(inventScan(old.map((plant, i) => (i === 3 ? { ...plant, volumeMm3: plant.volumeMm3 / 3 } : plant))), undefined)).toEqual(['1/4 outside']);
  });
});
