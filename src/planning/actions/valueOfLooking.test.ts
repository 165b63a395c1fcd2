import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../science/crop/normalNumbers.ts';
import { startRandom } from '../../science/seededRandom.ts';
import { valueOfLooking } from './valueOfLooking.ts';

const FUTURES = 100;
const scores = Float64Array.from({ length: FUTURES }, (_, m) => normalQuantile((m + 0.5) / FUTURES));
const nothing = new Float64Array(FUTURES);
const sharp = { correlation: 1, todayLogSd: 0.2, errorLogSd: 0 };

describe('what knowing is worth', () => {
  it('is nothing where one choice is best whatever is found', () => {
    const better = scores.map((z) => 10 + z);
    expect(valueOfLooking([nothing, better], scores, sharp)).toEqual({ worth: 0, chanceItChanges: 0 });
    expect(valueOfLooking([nothing], scores, sharp).worth).toBe(0);
  });

  it('is nothing where the look tells nothing', () => {
    const gain = scores.map((z) => 10 * z);
    for (const look of [{ ...sharp, correlation: 0 }, { ...sharp, todayLogSd: 0 }]) expect(valueOfLooking([nothing, gain], scores, look).worth).toBeCloseTo(0, 9);
  });

  it('nearly equals the value of knowing all where the look is exact: 10 z against nothing is worth 10/sqrt(2 pi) = 3.99 (Raiffa & Schlaifer 1961, unit normal loss)', () => {
    const { worth, chanceItChanges } = valueOfLooking([nothing, scores.map((z) => 10 * z)], scores, sharp);
    console.log(`10 z: ${worth.toFixed(3)}, by the unit normal loss integral ${(10 / Math.sqrt(2 * Math.PI)).toFixed(3)}`);
    expect(worth).toBeGreaterThan(3.85);
    expect(worth).toBeLessThan(4.0);
    expect(chanceItChanges).toBeCloseTo(0.5, 1);
  });

  it('follows the loss integral as the error grows: worth of 10 z is 10 r / sqrt(2 pi)', () => {
    for (const errorLogSd of [0.1, 0.2, 0.4]) {
      const r = 0.2 / Math.hypot(0.2, errorLogSd);
      const { worth } = valueOfLooking([nothing, scores.map((z) => 10 * z)], scores, { ...sharp, errorLogSd });
      expect(Math.abs(worth / (10 * r / Math.sqrt(2 * Math.PI)) - 1), `error ${errorLogSd}: ${worth}`).toBeLessThan(0.03);
    }
  });

  it('is never negative, nor more than knowing all, over 200 invented tables', () => {
    const random = startRandom(5);
    for (let trial = 0; trial < 200; trial += 1) {
      const money = Array.from({ length: 1 + random.below(5) }, () => scores.map((z) => 20 * random.normal() + 5 * random.normal() * z));
      const look = { correlation: 2 * random.uniform() - 1, todayLogSd: random.uniform(), errorLogSd: random.uniform() };
      const { worth } = valueOfLooking(money, scores, look);
      const mean = (of: (m: number) => number) => scores.reduce((sum, _, m) => sum + of(m), 0) / FUTURES;
      const all = mean((m) => Math.max(...money.map((each) => each[m]!))) - Math.max(...money.map((each) => mean((m) => each[m]!)));
      expect(worth).toBeGreaterThanOrEqual(0);
      expect(worth).toBeLessThanOrEqual(all + 1e-6);
    }
  });
});
