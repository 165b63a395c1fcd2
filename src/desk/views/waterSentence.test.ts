import { describe, expect, it } from 'vitest';
import type { TankProjection } from '../../planning/morningPlan.ts';
import { waterSentence } from './waterSentence.ts';

const projection = (component: string, dischargeBy?: string): TankProjection => ({ component, limitMmolPerL: 4, days: [], sentence: '', ...(dischargeBy === undefined ? {} : { dischargeBy }) });
const tanks = (projections: readonly TankProjection[]) => [
  { source: 'rain', title: 'Rainwater', kind: 'fresh', projections: [] }, { source: 'mains', title: 'Mains', kind: 'fresh', projections: [] },
  { source: 'back', title: 'Returned solution', kind: 'return', projections },
] as const;

describe('water in one sentence', () => {
  it('says what comes in, what was used before, what goes, and which limit comes first', () => {
    expect(waterSentence(54, { waterL: { rain: 2082.4, mains: 1000, back: 5200, acid: 1.3 }, dischargedL: 312, returnedL: 1240 }, tanks([projection('Cl', '2026-07-01'), projection('Na', '2026-06-03')])))
      .toBe('Today 54 basins take 3.08 m³ of fresh water and 5.20 m³ of returned solution, 63 % of it used again; 312 L are discharged, 1.24 m³ come back into return tanks. Returned solution reaches its limit of sodium on 3 June unless a part is discharged by then.');
  });
  it('says so where nothing happens and no limit comes', () => {
    expect(waterSentence(0, { waterL: {}, dischargedL: 0, returnedL: 0 }, tanks([projection('Na')])))
      .toBe('No basin is filled today; nothing is discharged. No return tank reaches its limit of sodium or chloride in the days looked ahead.');
    expect(waterSentence(1, { waterL: { rain: 10 }, dischargedL: 0, returnedL: 0 }, tanks([]))).toContain('Today one basin takes 10 L of fresh water and 0 L of returned solution, 0 % of it used again; nothing is discharged. Nothing is known');
  });
});
