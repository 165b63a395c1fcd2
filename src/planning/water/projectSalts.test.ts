import { describe, expect, it } from 'vitest';
import { concentrationAfter, plateauOf, type SaltPool } from '../../science/crop/saltBuildUp.ts';
import { projectSalts, type SaltCircuit } from './projectSalts.ts';

const NONE: SaltCircuit = { basinsL: 450, basinsMmolPerL: 0.6, absorbedLPerDay: 12, uptakeMmolPerL: 0.3, dischargedLPerDay: 0, makeUpMmolPerL: 0.6, spentFactor: 1, tanks: [] };
/** A tank whose water goes round through the basins twice a day: one pool of 450 L. */
const ROUND: SaltCircuit = { ...NONE, basinsL: 225, tanks: [{ volumeL: 225, capacityL: 1000, mmolPerL: 0.6, returnedLPerDay: 450, drawnLPerDay: 450 }] };
const POOL: SaltPool = { volumeL: 450, startMmolPerL: 0.6, absorbedLPerDay: 12, makeUpMmolPerL: 0.6, uptakeMmolPerL: 0.3, uptakeShare: 0, bleedShare: 0 };

describe('projectSalts', () => {
  it('is the closed form of one pool where tank and basins mix: 4 mmol/L after 425 days (vector of the horticulture notes)', () => {
    const shown = projectSalts(ROUND, 425);
    expect(shown).toHaveLength(426);
    for (const days of [30, 100, 425]) expect(shown[days]![0]! / concentrationAfter(POOL, days), `${days} d`).toBeCloseTo(1, 2);
  });
  it('levels off where so much is discharged as comes in', () => {
    const shown = projectSalts({ ...ROUND, dischargedLPerDay: 6 }, 800);
    expect(shown[800]![0]! / plateauOf({ ...POOL, bleedShare: 0.5 })!).toBeCloseTo(1, 2);
  });
  it('lags behind the basins where little goes round, and spent solution that is stronger than the mean fills it sooner', () => {
    const slow = (spentFactor: number) => projectSalts({ ...ROUND, spentFactor, tanks: [{ ...ROUND.tanks[0]!, returnedLPerDay: 5, drawnLPerDay: 5 }] }, 100)[100]![0]!;
    expect(slow(1)).toBeLessThan(concentrationAfter(POOL, 100));
    expect(slow(1.5)).toBeGreaterThan(slow(1));
  });
  it('makes no salt: a full tank overflows, an empty one gives nothing, and without make-up of salt nothing rises', () => {
    const pure = { ...ROUND, makeUpMmolPerL: 0, uptakeMmolPerL: 0, absorbedLPerDay: 0 };
    for (const tank of [{ returnedLPerDay: 30, drawnLPerDay: 0 }, { returnedLPerDay: 0, drawnLPerDay: 30 }]) {
      const last = projectSalts({ ...pure, tanks: [{ ...ROUND.tanks[0]!, ...tank }] }, 200)[200]![0]!;
      expect(last).toBeGreaterThan(0);
      expect(last).toBeLessThanOrEqual(0.6 + 1e-12);
    }
  });
});
