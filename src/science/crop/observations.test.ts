import { describe, expect, it } from 'vitest';
import { inventLot, LEAFY } from '../../../bench/inventedLots.ts';
import { dateOf } from './calendar.ts';
import { forecastLot } from './forecastLot.ts';
import type { LotForecast, MeanObservation } from './lotForecast.ts';
import { observeHarvest } from './observeHarvest.ts';
import { observeScans } from './observeScans.ts';
import { observeWater } from './observeWater.ts';

const DAY = 19;
const date = dateOf(19_026 + DAY);
const lot = inventLot(1_007, { ...LEAFY, modelId: 'two-state-lettuce' });
function forecast(observations: readonly MeanObservation[], samples = lot.samples.slice(0, 2)): LotForecast {
  const outcome = forecastLot({ ...lot.input, samples, observations, at: date, horizonDays: 7 });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}
const width = (of: LotForecast, what: 'dryG' | 'freshG' = 'freshG') => Math.log(of.dates[0]![what].p95 / of.dates[0]![what].p05);
const middle = (of: LotForecast) => of.dates[0]!.freshG.p50;
const alone = forecast([]);
const scansOf = (mean: number, commonLogSd: number, day = date) =>
  observeScans({ date: day, quantity: 'freshG', basins: [1, 2, 3].map(() => ({ mean, ownLogSd: 0.06, plants: 60 })), basinsOfLot: 4, commonLogSd })!;

describe('scans of a lot\'s basins', () => {
  it('worked by hand: mean weighted by plants, own errors shrink, basins not imaged add, the common error is passed on', () => {
    const seen = observeScans({ date, quantity: 'freshG', basins: [{ mean: 40, ownLogSd: 0.1, plants: 30 }, { mean: 60, ownLogSd: 0.1, plants: 10 }, { mean: 0, ownLogSd: 0.1, plants: 5 }], basinsOfLot: 8, commonLogSd: 0.2 })!;
    expect(seen.mean).toBeCloseTo(45, 12);
    // (0.75^2 + 0.25^2) 0.01 + 0.75 x 0.0025 / 2
    expect(Math.log1p(seen.relativeSd ** 2)).toBeCloseTo(0.625 * 0.01 + 0.75 * 0.0025 / 2, 12);
    expect(Math.log1p(seen.sharedRelativeSd! ** 2)).toBeCloseTo(0.04, 12);
    expect(observeScans({ date, quantity: 'freshG', basins: [], basinsOfLot: 8, commonLogSd: 0.2 })).toBeUndefined();
  });

  it('narrow the band as Kalman 1960 has it: 1/variance after is 1/variance before + 1/error, all of fresh mass', () => {
    const seen = scansOf(middle(alone), 0);
    const sd = (of: LotForecast) => width(of) / 3.29;
    const expected = 1 / Math.sqrt(1 / sd(alone) ** 2 + 1 / Math.log1p(seen.relativeSd ** 2));
    console.log(`scan of the mean fresh mass: spread of ln ${sd(alone).toFixed(3)} before, ${sd(forecast([seen])).toFixed(3)} after, ${expected.toFixed(3)} expected`);
    expect(sd(forecast([seen])) / expected).toBeGreaterThan(0.9);
    expect(sd(forecast([seen])) / expected).toBeLessThan(1.1);
    expect(width(forecast([scansOf(middle(alone), 0.3)]))).toBeGreaterThan(width(forecast([seen])) * 1.3);
  });

  it('that always show 40 % too much are found out by the scales: three of them move the lot by less than a third of that', () => {
    const [all, scanDays] = [lot.samples.slice(0, 3), [5, 12, 19]];
    const faulty = scanDays.map((day) => scansOf(1.4 * lot.freshG[day]!, 0.3, dateOf(19_026 + day)));
    const shift = Math.log(middle(forecast(faulty, all)) / middle(forecast([], all)));
    console.log(`scans 40 % too high beside samples: the lot moves by ${(100 * shift).toFixed(1)} %`);
    expect(Math.abs(shift)).toBeLessThan(Math.log(1.4) / 3);
    const believed = faulty.map((seen) => ({ ...seen, sharedRelativeSd: 0 }));
    expect(Math.log(middle(forecast(believed, all)) / middle(forecast([], all)))).toBeGreaterThan(1.3 * shift);
  });

  it('a single wild one pulls no harder than three standard deviations would', () => {
    const [wild, wilder] = [10, 100].map((times) => middle(forecast([scansOf(times * middle(alone), 0)])));
    expect(wild! / middle(alone)).toBeLessThan(1.9);
    expect(wilder!).toBeLessThan(wild!);
  });
});

describe('part of a lot harvested', () => {
  const cut = { date, plants: 400, freshKg: 0.02 * 400, trimmedShare: 0.05, plantsOfLot: 1000, plantLogSd: 0.2 };
  it('worked by hand', () => {
    const seen = observeHarvest(cut)!;
    expect(seen.mean).toBeCloseTo(20 / 0.95, 12);
    expect(Math.log1p(seen.relativeSd ** 2)).toBeCloseTo(0.02 ** 2 + 0.6 / 400 * 0.2 ** 2, 12);
    expect(seen.sharedRelativeSd).toBeCloseTo(0.6 * 0.08, 12);
    expect(observeHarvest({ ...cut, plants: 1000, freshKg: 20 })!.sharedRelativeSd).toBeUndefined();
    expect(observeHarvest({ ...cut, plants: 0 })).toBeUndefined();
  });
  it('narrows the band to scales and choice', () => {
    const seen = observeHarvest({ ...cut, freshKg: 0.4 * 0.95 * middle(alone) })!;
    expect(width(forecast([seen])) / 3.29).toBeLessThan(Math.hypot(0.02, 0.048) * 1.15);
    expect(width(forecast([seen]))).toBeLessThan(0.6 * width(alone));
  });
});

describe('water lost from a basin', () => {
  const litresOf = (leafAreaIndex: number) => 3 * (1 - Math.exp(-0.7 * leafAreaIndex));
  const lost = { date, litresPerM2: litresOf(0.8), relativeSd: 0.05, plantsPerM2: 45, litresOf };
  it('gives the leaf area that explains it, surer of an open canopy than of a closed one', () => {
    const seen = observeWater(lost)!;
    expect(seen.mean).toBeCloseTo(0.8 / 45, 7);
    // d ln L / d ln LAI = 0.7 LAI e^-x / (1 - e^-x), x = 0.56
    expect(seen.relativeSd).toBeCloseTo(0.05 / (0.56 * Math.exp(-0.56) / (1 - Math.exp(-0.56))), 3);
    expect(observeWater({ ...lost, litresPerM2: litresOf(3) })!.relativeSd).toBeGreaterThan(2.4 * seen.relativeSd);
    expect([litresOf(7), 0, 9].map((litresPerM2) => observeWater({ ...lost, litresPerM2 }))).toEqual([undefined, undefined, undefined]);
  });
  it('narrows the band of a lot that nobody weighed, and hardly that of one weighed the same day', () => {
    const unweighed = forecast([], []).dates[0]!;
    const upright = (leafAreaIndex: number) => 3 * (1 - Math.exp(-0.2 * leafAreaIndex));
    const seen = observeWater({ ...lost, litresOf: upright, litresPerM2: upright(unweighed.leafAreaIndex), plantsPerM2: unweighed.plantsPerM2 })!;
    expect(width(forecast([seen], []), 'dryG')).toBeLessThan(0.8 * width(forecast([], []), 'dryG'));
    const weighed = lot.samples.slice(0, 3);
    expect(width(forecast([seen], weighed), 'dryG')).toBeGreaterThan(0.85 * width(forecast([], weighed), 'dryG'));
  });
});
