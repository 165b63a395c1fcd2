import { describe, expect, it } from 'vitest';
import type { ScanMean, ScanNote } from '../../greenhouse/scanNote.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { scanObservations } from './scanObservations.ts';

const note = (lot: string, takenAt: string, mean?: ScanMean): ScanNote => ({ scan: 'a', sequence: 1, basin: 'B1', lot, takenAt, ageDays: 30, present: 60, rafts: 6, perRaft: 12, cellMm: 6, version: 1, ...(mean ? { mean } : {}) });
const stateWith = (scans: readonly ScanNote[]) => ({ file: { location: { timeZone: 'Europe/London' } }, basins: { B1: { scans } } }) as unknown as GreenhouseState;

/** Of a lognormal with this relative standard deviation. */
const logSd = (relativeSd: number) => Math.sqrt(Math.log1p(relativeSd ** 2));

describe('scans as observations of a lot', () => {
  it('gives the mean on the local day, with the error of one basin', () => {
    const [seen] = scanObservations(stateWith([note('L1', '2026-06-01T23:30:00.000Z', { freshG: 80, commonLnSd: 0.12, ownLnSd: 0.03 })])).get('L1')!;
    expect(seen).toMatchObject({ date: '2026-06-02', quantity: 'freshG', mean: 80 });
    expect([logSd(seen!.relativeSd), logSd(seen!.sharedRelativeSd!)]).toEqual([expect.closeTo(0.03, 9), expect.closeTo(0.12, 9)]);
  });

  it('lets a common error not shrink with the number of scans, and leaves out scans without mass and other lots', () => {
    const mean = { freshG: 80, commonLnSd: 0.5, ownLnSd: 0.01 };
    const seen = scanObservations(stateWith([note('L1', '2026-06-01T09:00:00.000Z', mean), note('L1', '2026-06-05T09:00:00.000Z', mean), note('L1', '2026-06-06T09:00:00.000Z'), note('L2', '2026-06-06T09:00:00.000Z', mean)]));
    expect(seen.get('L1')).toHaveLength(2);
    expect(new Set(seen.get('L1')!.map(({ instrument }) => instrument)).size).toBe(1);
    for (const { sharedRelativeSd } of [...seen.get('L1')!, ...seen.get('L2')!]) expect(logSd(sharedRelativeSd!)).toBeCloseTo(0.5, 9);
  });
});
