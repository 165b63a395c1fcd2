import { describe, expect, it } from 'vitest';
import { KNOWN_CROP_GROWTHS } from './cropGrowths.ts';
import { growthPriorOf } from './growthPriorOf.ts';
import type { AgedLesson } from './learnFromLots.ts';
import { learnFromLots } from './learnFromLots.ts';

const prior = { ...growthPriorOf(KNOWN_CROP_GROWTHS['lettuce']!), assimilation: { mean: 0, sd: 0.2 } };
const lot = (mean: number, sd: number, ageDays = 0): AgedLesson => ({
  lesson: { assimilation: { mean, sd }, expansion: prior.expansion, freshness: prior.freshness, start: prior.start }, ageDays,
});

describe('what earlier lots teach', () => {
  it('no lots, and lots that learnt nothing: the belief stays', () => {
    expect(learnFromLots(prior, []).assimilation.sd).toBeCloseTo(0.2, 12);
    expect(learnFromLots(prior, [lot(0.1, 0.2)]).assimilation).toEqual(learnFromLots(prior, []).assimilation);
    expect(learnFromLots(prior, [lot(-0.15, 0.1)]).start.sd).toBeCloseTo(0.7, 12);
  });

  // Shared variance 0.02, own variance 0.02. A lot believed -0.15 +- 0.1: its samples alone said (-0.15/0.01)/(1/0.01 - 1/0.04) = -0.2
  // with variance 1/75; as evidence on the shared part variance 1/75 + 0.02 = 1/30. Shared: precision 50 + 30, mean -0.2 x 30/80.
  it('one lot, worked by hand: mean -0.075, spread root(1/80 + 0.02)', () => {
    const learnt = learnFromLots(prior, [lot(-0.15, 0.1)]).assimilation;
    expect(learnt.mean).toBeCloseTo(-0.075, 12);
    expect(learnt.sd).toBeCloseTo(Math.sqrt(0.0325), 12);
  });

  // Half a season later half of the shared variance is another: evidence variance 1/30 + 0.01 = 13/300, precision 50 + 300/13.
  it('an old lot teaches less: 120 days later half of what lots share is another', () => {
    const learnt = learnFromLots(prior, [lot(-0.15, 0.1, 120)]).assimilation;
    expect(learnt.mean).toBeCloseTo(-0.2 * (300 / 13) / (50 + 300 / 13), 12);
    expect(learnFromLots(prior, [lot(-0.15, 0.1, -9)])).toEqual(learnFromLots(prior, [lot(-0.15, 0.1)]));
  });

  it('many lots that agree: nearly their mean, and never surer than lots differ among themselves', () => {
    const learnt = learnFromLots(prior, Array.from({ length: 40 }, () => lot(-0.15, 0.1))).assimilation;
    expect(learnt.mean).toBeLessThan(-0.19);
    expect(learnt.sd).toBeGreaterThan(Math.sqrt(0.02));
    expect(learnt.sd).toBeLessThan(0.15);
  });
});
