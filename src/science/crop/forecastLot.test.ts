import { describe, expect, it } from 'vitest';
import { dateOf } from './calendar.ts';
import { KNOWN_CROP_GROWTHS, cropGrowthOf, LEAFY_TISSUE_MMOL_PER_G } from './cropGrowths.ts';
import { densityOn } from './densitySchedule.ts';
import { forecastLot } from './forecastLot.ts';
import type { HourlyClimate } from './growthModel.ts';
import { DEFAULT_GROWTH_PRIOR } from './growthPrior.ts';
import type { LotForecast, LotForecastInput } from './lotForecast.ts';

const FIRST_DAY = 19_026; // 2022-02-03
const day = (n: number) => dateOf(FIRST_DAY + n);

function climateOf(days: number, change: Partial<Record<'airC' | 'ppfd', number>> = {}): HourlyClimate {
  const hourly = (of: (hour: number) => number) => Float64Array.from({ length: 24 * days }, (_, i) => of(i % 24));
  const light = change.ppfd ?? 300;
  return { startUtcHour: 24 * FIRST_DAY, utcOffsetH: 0, airC: hourly(() => change.airC ?? 19), co2Ppm: hourly(() => 600), ppfdUmolM2S: hourly((h) => (h >= 6 && h < 20 ? light : 0)) };
}

const plants = (dryG: number, spread = 0.1) => [-1, 0, 1].map((z) => ({ dryG: dryG * Math.exp(spread * z), freshG: 14 * dryG * Math.exp(spread * z) }));

const lot = (change: Partial<LotForecastInput> = {}): LotForecastInput => ({
  crop: KNOWN_CROP_GROWTHS['lettuce']!, climate: climateOf(60), planting: day(0), at: day(14), horizonDays: 30, seed: 7, members: 100,
  densities: [{ date: day(0), plantsPerM2: 90 }, { date: day(14), plantsPerM2: 45 }, { date: day(24), plantsPerM2: 20 }],
  samples: [{ date: day(7), plants: plants(0.3) }, { date: day(14), plants: plants(1) }], ...change,
});

function forecast(change: Partial<LotForecastInput> = {}): LotForecast {
  const outcome = forecastLot(lot(change));
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}
const refusalsOf = (change: Partial<LotForecastInput>) => {
  const outcome = forecastLot(lot(change));
  return outcome.ok ? [] : outcome.refusals.map((refusal) => `${refusal.path} ${refusal.code}`);
};

describe('forecast of a lot', () => {
  it('gives every day of the horizon, bands in order, plants wider than their mean, ready share rising', () => {
    const { dates } = forecast();
    expect(dates.map((one) => one.date)).toEqual(Array.from({ length: 31 }, (_, i) => day(14 + i)));
    for (const one of dates) {
      for (const q of [one.dryG, one.freshG, one.plant.dryG, one.plant.freshG]) expect([q.p05, q.p25, q.p50, q.p75, q.p95]).toEqual([q.p05, q.p25, q.p50, q.p75, q.p95].toSorted((a, b) => a - b));
      expect(one.plant.freshG.p95 - one.plant.freshG.p05).toBeGreaterThan(one.freshG.p95 - one.freshG.p05);
    }
    expect(dates[0]!.readyShare).toBeLessThan(0.01);
    expect(dates[30]!.readyShare).toBeGreaterThan(dates[20]!.readyShare);
    expect(dates[10]!.plantsPerM2).toBe(20);
    expect(dates[9]!.plantsPerM2).toBe(45);
    expect(dates[10]!.leafAreaIndex).toBeLessThan(dates[9]!.leafAreaIndex);
    expect(dates[9]!.groundCover).toBeGreaterThan(0.5);
  });

  it('is the same bit for bit on a second run, and another with another seed', () => {
    expect(forecast()).toEqual(forecast());
    expect(forecast({ seed: 8 })).not.toEqual(forecast());
  });

  it('lies near the last sample at first, and is surer with samples than without', () => {
    const [sampled, unsampled] = [forecast(), forecast({ samples: [] })];
    expect(sampled.dates[0]!.dryG.p50).toBeGreaterThan(0.85);
    expect(sampled.dates[0]!.dryG.p50).toBeLessThan(1.15);
    const spread = (of: LotForecast, i: number) => Math.log(of.dates[i]!.dryG.p95 / of.dates[i]!.dryG.p05);
    expect(spread(sampled, 0)).toBeLessThan(spread(unsampled, 0) / 3);
    expect(spread(sampled, 20)).toBeLessThan(spread(unsampled, 20));
  });

  it('never uses samples or observations dated after `at` or before planting', () => {
    const late = [{ date: day(15), plants: plants(9) }, { date: day(-1), plants: plants(9) }];
    const seen = [{ date: day(16), quantity: 'dryG' as const, mean: 9, relativeSd: 0.1, from: 'scan' }];
    expect(forecast({ samples: [...lot().samples, ...late], observations: seen })).toEqual(forecast());
  });

  it('learns from other observations too, and names them', () => {
    const heavy = forecast({ observations: [{ date: day(14), quantity: 'freshG', mean: 22, relativeSd: 0.08, from: 'scan S1' }] });
    expect(heavy.dates[0]!.freshG.p50).toBeGreaterThan(forecast().dates[0]!.freshG.p50 * 1.1);
    expect(heavy.basis.observationsUsed).toEqual([`${day(14)} scan S1`]);
    const leafy = forecast({ samples: [], observations: [{ date: day(14), quantity: 'leafAreaM2', mean: 0.03, relativeSd: 0.1, from: 'scan' }] });
    const width = (of: LotForecast) => Math.log(of.dates[0]!.dryG.p95 / of.dates[0]!.dryG.p05);
    expect(width(leafy)).toBeLessThan(0.85 * width(forecast({ samples: [] })));
  });

  it('may report from an earlier day: what was believed then', () => {
    const early = forecast({ reportFrom: day(7) });
    expect(early.dates).toHaveLength(38);
    expect(early.dates.slice(7)).toEqual(forecast().dates);
    expect(early.dates[0]!.dryG.p50).toBeGreaterThan(0.25);
    expect(early.nutrientMmolPerM2).toEqual(forecast().nutrientMmolPerM2);
  });

  it('dates readiness, early before middle before late, and none beyond the horizon', () => {
    const { readyDate } = forecast({ horizonDays: 45, crop: { ...lot().crop, readyFreshG: 120 } });
    expect(readyDate.p05! < readyDate.p50! && readyDate.p50! < readyDate.p95!).toBe(true);
    expect(forecast({ horizonDays: 3 }).readyDate).toEqual({});
  });

  it('tells what can be sold beside what is ready: bright days burn hearts, small plants and crops without limits do not burn', () => {
    const ready = { ...lot().crop, readyFreshG: 60 };
    const [dim, bright] = [300, 500].map((ppfd) => forecast({ climate: climateOf(60, { ppfd }), crop: ready }).dates[30]!);
    expect(dim!.saleableShare).toBe(dim!.readyShare);
    expect(bright!.readyShare).toBeGreaterThan(0.9);
    // 25.2 mol a day: 8.2 too much, over some three weeks with hearts closed.
    expect(bright!.saleableShare / bright!.readyShare).toBeLessThan(0.5 ** (8.2 * 10 / 40));
    expect(forecast({ climate: climateOf(60, { ppfd: 500 }), crop: { ...ready, tipBurn: undefined } }).dates[30]!.saleableShare).toBe(bright!.readyShare);
    const early = forecast({ climate: climateOf(60, { ppfd: 500 }), crop: { ...ready, readyFreshG: 10 }, reportFrom: day(7) }).dates[0]!;
    expect(early.saleableShare).toBe(early.readyShare);
  });

  it('wants nutrients for what it will grow: tissue content times growth at each day\'s density', () => {
    const one = forecast({ horizonDays: 1 });
    const grown = 45 * (one.dates[1]!.dryG.p50 - one.dates[0]!.dryG.p50);
    expect(one.nutrientMmolPerM2!['N']).toBeCloseTo(3.81 * grown, 10);
    expect(forecast({ crop: { ...lot().crop, tissueMmolPerGDry: undefined } }).nutrientMmolPerM2).toBeUndefined();
  });

  it('starts from what earlier lots taught', () => {
    const slow = forecast({ samples: [], prior: { ...DEFAULT_GROWTH_PRIOR, assimilation: { mean: -0.5, sd: 0.1 } } });
    expect(slow.dates[20]!.dryG.p50).toBeLessThan(forecast({ samples: [] }).dates[20]!.dryG.p50);
    expect(slow.basis.learned.assimilation.mean).toBeCloseTo(-0.5, 1);
  });

  it('alarms on a lot that stops growing, and not on one that follows the model', () => {
    const grown = forecast({ at: day(28), samples: [], horizonDays: 1, reportFrom: day(0), members: 400 }).dates;
    const follows = [7, 14, 21, 28].map((n) => ({ date: day(n), plants: plants(grown[n]!.dryG.p50) }));
    expect(forecast({ at: day(28), samples: follows }).alarms).toEqual([]);
    const stops = follows.map((sample, i) => ({ ...sample, plants: plants(grown[[7, 14, 16, 18][i]!]!.dryG.p50) }));
    expect(forecast({ at: day(28), samples: stops }).alarms.map((alarm) => alarm.name)).toEqual(['growth-below-model']);
  });

  it('says where climate or density lie outside what the model is valid for', () => {
    const cold = forecast({ climate: climateOf(60, { airC: 3 }) });
    const alarm = cold.alarms.find((one) => one.name === 'outside-valid-range');
    expect(alarm!.sentence).toBe('airC lies outside 5 to 40, where the model "Two-state lettuce" is valid, for 100 % of the time: trust the forecast less.');
    expect(forecast({ densities: [{ date: day(0), plantsPerM2: 2000 }] }).alarms[0]!.numbers).toEqual({ outsideShare: 1, least: 5, most: 400 });
  });

  it('runs every model', () => {
    for (const modelId of ['two-state-lettuce', 'expolinear', 'reduced-tomato']) {
      const grown = forecast({ crop: { ...lot().crop, modelId }, densities: [{ date: day(0), plantsPerM2: modelId === 'reduced-tomato' ? 3 : 40 }] });
      expect(grown.dates[30]!.dryG.p50).toBeGreaterThan(grown.dates[0]!.dryG.p50 * 1.5);
      expect(grown.basis.modelId).toBe(modelId);
    }
  });

  it('understands a climate that is counted in another zone', () => {
    const shifted = { ...climateOf(60), startUtcHour: 24 * FIRST_DAY + 8, utcOffsetH: -8 };
    expect(forecast({ climate: shifted }).dates).toEqual(forecast().dates);
  });
});

describe('forecasts that are refused, with every reason at once', () => {
  it('dates, numbers, masses', () => {
    expect(refusalsOf({ at: '2022-02-30', members: 5, horizonDays: 1.5, densities: [] })).toEqual([
      'at value-not-allowed', 'densities value-missing', 'members value-out-of-range', 'horizonDays value-out-of-range',
    ]);
    expect(refusalsOf({ samples: [{ date: day(7), plants: [{ freshG: 1, dryG: 2 }, { freshG: -1 }, { dryG: Number.NaN }] }] })).toEqual([
      'samples.0.plants.0 inconsistent', 'samples.0.plants.1.freshG value-out-of-range', 'samples.0.plants.2.dryG value-not-a-number',
    ]);
    expect(refusalsOf({ observations: [{ date: day(7), quantity: 'dryG', mean: 1, relativeSd: 0, from: 'x' }] })).toEqual(['observations.0.relativeSd value-out-of-range']);
    expect(refusalsOf({ crop: { ...lot().crop, seedlingDryG: 0, readyShare: 2 } })).toEqual(['crop.seedlingDryG value-out-of-range', 'crop.readyShare value-out-of-range']);
  });

  it('order of days, coverage of climate', () => {
    expect(refusalsOf({ at: day(-2) })).toContain('at inconsistent');
    expect(refusalsOf({ reportFrom: day(20) })).toEqual(['reportFrom inconsistent']);
    expect(refusalsOf({ climate: climateOf(30) })).toEqual(['climate value-missing']);
    expect(refusalsOf({ climate: { ...climateOf(60), startUtcHour: 24 * FIRST_DAY + 13 } })).toEqual(['climate value-missing']);
    expect(refusalsOf({ climate: { ...climateOf(60), airC: climateOf(59).airC.fill(Number.NaN, 4, 5) } })).toContain('climate.airC value-not-a-number');
    expect(refusalsOf({ climate: climateOf(45) })).toEqual([]);
  });

  it('unknown models and parameters', () => {
    expect(refusalsOf({ crop: { ...lot().crop, modelId: 'toString' } })).toEqual(['growth.model reference-unknown']);
    expect(refusalsOf({ crop: { ...lot().crop, parameters: { c_omega: 0.00732 } } })).toEqual(['parameters.c_omega value-out-of-range']);
  });
});

describe('crops', () => {
  it('densities hold until the next; before the first, the first', () => {
    const density = densityOn(lot().densities.toReversed());
    expect([-3, 0, 13, 14, 23, 24, 99].map((n) => density(FIRST_DAY + n))).toEqual([90, 90, 90, 45, 45, 20, 20]);
  });

  it('a card in its own units', () => {
    const card = { crop: 'bh', kind: 'leafy' as const, cultivar: 'green Lugano', modelId: 'two-state-lettuce', parameters: {}, seedlingDryMg: 6, seedlingSpread: 0.2, readyFreshG: 160, readyShare: 0.8 };
    const growth = cropGrowthOf(card);
    expect(growth.seedlingDryG).toBeCloseTo(0.006, 12);
    expect(growth.seedlingLogSd).toBeCloseTo(Math.sqrt(Math.log(1.04)), 12);
    expect(growth.dryMatter.intercept).toBe(2.626);
    expect(cropGrowthOf({ ...card, cultivar: 'other' }).dryMatter.intercept).toBe(2.63);
    expect(cropGrowthOf({ ...card, cultivar: 'other', kind: 'herb' }).dryMatter.intercept).toBe(2.4);
  });

  it('lettuce begins as Van Henten\'s two crops did (0.15 and 0.04 g: middle 0.077, spread of ln 0.66)', () => {
    expect(KNOWN_CROP_GROWTHS['lettuce']!.seedlingDryG).toBeCloseTo(Math.sqrt(0.15 * 0.04), 3);
    expect(KNOWN_CROP_GROWTHS['lettuce']!.seedlingLogSd).toBeCloseTo(Math.log(0.15 / 0.04) / 2, 1);
  });

  it('begin and are ready as stated where no card says more: lettuce heads of 250 g, herbs of 20 mg and 27 g (common practice, no source)', () => {
    const stated = (name: string) => { const { seedlingDryG, seedlingLogSd, readyFreshG, readyShare } = KNOWN_CROP_GROWTHS[name]!; return [seedlingDryG, seedlingLogSd, readyFreshG, readyShare]; };
    for (const name of ['lettuce', 'butterhead', 'lugano']) expect(stated(name), name).toEqual([0.077, 0.7, 250, 0.8]);
    for (const name of ['herb', 'basil', 'parsley']) expect(stated(name), name).toEqual([0.02, 0.7, 27, 0.75]);
    for (const name of ['leafy', 'spinach', 'kale']) expect(stated(name), name).toEqual([0.077, 0.7, 60, 0.75]);
    expect(stated('tomato')).toEqual([2.5, 0.5, 3000, 0.5]);
    expect([KNOWN_CROP_GROWTHS['leafy']!.parameters['lue'], KNOWN_CROP_GROWTHS['leafy']!.dryMatter.lotLogSd]).toEqual([0.75, 0.25]); // between Jin et al. 2023 and Carotti et al. 2021
  });

  it('leafy tissue: the percentages of 36 basil samples in mmol per gram', () => {
    const percent = { N: [5.34, 14.007], P: [0.68, 30.974], K: [4.89, 39.098], Ca: [2.21, 40.078], Mg: [0.88, 24.305], S: [0.38, 32.06] };
    for (const [element, [share, molarMass]] of Object.entries(percent)) expect(LEAFY_TISSUE_MMOL_PER_G[element]! / (share! * 10 / molarMass!)).toBeCloseTo(1, 2);
  });
});
