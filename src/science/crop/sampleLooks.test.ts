import { describe, expect, it } from 'vitest';
import { KNOWN_CROP_GROWTHS } from './cropGrowths.ts';
import { DEFAULT_GROWTH_PRIOR } from './growthPrior.ts';
import { biasSpreads, lookOfObservation, looksOfSample, plantSpread } from './sampleLooks.ts';

const lettuce = KNOWN_CROP_GROWTHS['lettuce']!;
const sample = { date: '2022-02-15', plants: [{ freshG: 10, dryG: 0.5 }, { freshG: 14, dryG: 0.9 }, { freshG: 12 }, {}] };

describe('what a sample says', () => {
  it('mean dry mass, fresh relative to dry of the same plants, fresh mass of plants not dried', () => {
    const looks = looksOfSample(sample, lettuce, DEFAULT_GROWTH_PRIOR, 0.2);
    expect(looks.map((look) => look.quantity)).toEqual(['dryG', 'freshPerDry', 'freshG']);
    expect(looks.every((look) => look.day === 19_038)).toBe(true);
    expect(looks[0]!.logMean).toBeCloseTo(Math.log(0.7), 12);
    expect(looks[0]!.logSd).toBeCloseTo(Math.hypot(0.2 / Math.SQRT2, 0.05), 12);
    expect([looks[1]!.logMean, looks[1]!.logDryMean]).toEqual([expect.closeTo(Math.log(12), 12), expect.closeTo(Math.log(0.7), 12)]);
    expect(looks[1]!.logSd).toBeCloseTo(Math.hypot(0.11 / Math.SQRT2, 0.02), 12);
    expect(looks[2]!.logMean).toBeCloseTo(Math.log(12), 12);
    expect(looks[2]!.logSd).toBeCloseTo(Math.hypot(0.2, 0.11, 0.05), 12);
  });

  it('spread between plants: ten plants\' worth of 0.2, then what was seen', () => {
    expect(plantSpread(DEFAULT_GROWTH_PRIOR, [])).toBeCloseTo(0.2, 12);
    // ln 0.5 and ln 0.9 lie 0.29389 from their mean: 2 x 0.08637 with one degree of freedom; (10 x 0.04 + 0.17275)/11
    expect(plantSpread(DEFAULT_GROWTH_PRIOR, [sample])).toBeCloseTo(Math.sqrt((0.4 + 2 * (Math.log(0.9 / 0.5) / 2) ** 2) / 11), 12);
    const freshOnly = { date: '2022-02-15', plants: [{ freshG: 10 }, { freshG: 10 }, { freshG: 10 }] };
    expect(plantSpread(DEFAULT_GROWTH_PRIOR, [freshOnly])).toBeCloseTo(Math.sqrt(0.4 / 12), 12);
    expect(plantSpread(DEFAULT_GROWTH_PRIOR, [{ date: '2022-02-15', plants: [{ dryG: 1 }] }])).toBeCloseTo(0.2, 12);
  });

  it('another observation with its own error, and with what its instrument always shows too much of', () => {
    const seen = { date: '2022-02-15', quantity: 'freshG' as const, mean: 5, relativeSd: 0.3, from: 'scan' };
    const own = expect.closeTo(Math.sqrt(Math.log(1.09)), 12);
    expect(lookOfObservation(seen)).toEqual({ day: 19_038, quantity: 'freshG', logMean: Math.log(5), logSd: own });
    expect(lookOfObservation({ ...seen, sharedRelativeSd: 0.3, instrument: 'camera 1' })).toMatchObject({ instrument: 'camera 1 freshG', biasLogSd: own });
  });

  it('leaf area says no more of mass than a model knows of leaf area: 0.25', () => {
    const looks = [0, 0.3].map((sharedRelativeSd) => lookOfObservation({ date: '2022-02-15', quantity: 'leafAreaM2', mean: 0.05, relativeSd: 0.3, from: 'scan', sharedRelativeSd }));
    expect(looks[0]!.biasLogSd).toBeCloseTo(0.25, 12);
    expect(looks[1]!.biasLogSd).toBeCloseTo(Math.hypot(0.25, Math.sqrt(Math.log(1.09))), 12);
    expect(biasSpreads(looks)).toEqual({ 'scan leafAreaM2': looks[1]!.biasLogSd });
  });
});
