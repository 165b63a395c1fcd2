import { describe, expect, it } from 'vitest';
import { calibrate, describeCalibration } from '../../../bench/cropCalibration.ts';
import { describeLearning, learnOverLots } from '../../../bench/cropLearning.ts';

// Truth from another model than the filter's (bench/inventedLots.ts). The 300 lots are in docs/accuracy.md; of 60 lots a 90 %
// band holds 80 % or more with 99 % probability (binomial), of 24 lots 70 % or more.
describe('90 % bands on invented lots whose truth is another model', () => {
  it.each([['two-state-lettuce', 60, 0.8], ['expolinear', 60, 0.8], ['reduced-tomato', 24, 0.7]] as const)('%s, %i lots', (modelId, lots, least) => {
    const found = calibrate(lots, modelId, undefined, false);
    console.log(`${modelId}, ${lots} invented lots after two to five samples: ${describeCalibration(found)}`);
    const held = [found.weekDry, found.weekFresh, found.endDry, found.endFresh, found.plantFresh];
    for (const share of held) expect(share).toBeGreaterThanOrEqual(least);
    // All of so few may hold by chance in one of the five, not in all of them.
    expect(held.reduce((sum, share) => sum + share, 0) / held.length).toBeLessThanOrEqual(0.97);
    expect(found.weekErrorPct).toBeLessThan(15);
  });
});

describe('a lot begins with what earlier lots of its cultivar taught', () => {
  it('lots 2 to 6 of eight seasons: nearer and surer from the planting day on, bands hold', () => {
    const scores = learnOverLots(8, 6);
    console.log(`learning over lots, fresh mass at harvest: ${describeLearning(scores)}`);
    expect(scores.day0Taught.errorPct).toBeLessThan(0.95 * scores.day0Alone.errorPct);
    expect(scores.day0Taught.width).toBeLessThan(0.97 * scores.day0Alone.width);
    expect(scores.sample1Taught.errorPct).toBeLessThan(scores.sample1Alone.errorPct);
    expect(scores.day0Taught.held).toBeGreaterThan(0.78);
  });
});
