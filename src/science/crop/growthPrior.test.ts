import { describe, expect, it } from 'vitest';
import { DEFAULT_GROWTH_PRIOR, learnFromLots } from './growthPrior.ts';

const unknown = { mean: 0, sd: 0.2 };
const prior = { ...DEFAULT_GROWTH_PRIOR, assimilation: unknown };
const lot = (mean: number, sd: number) => ({ assimilation: { mean, sd }, expansion: DEFAULT_GROWTH_PRIOR.expansion, freshness: DEFAULT_GROWTH_PRIOR.freshness });

describe('what earlier lots teach', () => {
  it('no lots, and lots that learnt nothing: the belief stays', () => {
    expect(learnFromLots(prior, []).assimilation.sd).toBeCloseTo(0.2, 12);
    expect(learnFromLots(prior, [lot(0.1, 0.2)]).assimilation).toEqual(learnFromLots(prior, []).assimilation);
  });

  // Shared variance 0.02, own variance 0.02. A lot believed -0.15 +- 0.1: its samples alone said (-0.15/0.01)/(1/0.01 - 1/0.04) = -0.2
  // with variance 1/75; as evidence on the shared part variance 1/75 + 0.02 = 1/30. Shared: precision 50 + 30, mean -0.2 x 30/80.
  it('one lot, worked by hand: mean -0.075, spread root(1/80 + 0.02)', () => {
    const learnt = learnFromLots(prior, [lot(-0.15, 0.1)]).assimilation;
    expect(learnt.mean).toBeCloseTo(-0.075, 12);
    expect(learnt.sd).toBeCloseTo(Math.sqrt(0.0325), 12);
  });

  it('many lots that agree: nearly their mean, and never surer than lots differ among themselves', () => {
    const learnt = learnFromLots(prior, Array.from({ length: 40 }, () => lot(-0.15, 0.1))).assimilation;
    expect(learnt.mean).toBeLessThan(-0.19);
    expect(learnt.sd).toBeGreaterThan(Math.sqrt(0.02));
    expect(learnt.sd).toBeLessThan(0.15);
  });
});
