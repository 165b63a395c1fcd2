import { describe, expect, it } from 'vitest';
import { meanMass } from './scanNote.ts';

describe('mean mass of a scan', () => {
  it('keeps the common part of the error and averages what is each plant\'s own', () => {
    const common = 0.3, own = 0.4, reach = 1.6449 * Math.hypot(common, own), freshG = [100, 100, 100, 100];
    const mean = meanMass({ freshG, lowG: freshG.map((g) => g * Math.exp(-reach)), highG: freshG.map((g) => g * Math.exp(reach)) }, common)!;
    expect(mean.freshG).toBeCloseTo(100 * Math.exp(own ** 2 / 2), 6);
    expect(mean.commonLnSd).toBe(common);
    expect(mean.ownLnSd).toBeCloseTo(own / 2, 6);
    expect(meanMass({ freshG: [], lowG: [], highG: [] }, common)).toBeUndefined();
  });
});
