import { describe, expect, it } from 'vitest';
import { dateOf } from './calendar.ts';
import { KNOWN_CROP_GROWTHS } from './cropGrowths.ts';
import { forecastFile } from './forecastFile.ts';
import type { ForecastTexts } from './forecastFile.ts';
import { checkForecastRequest } from './forecastRequest.ts';

const FIRST_DAY = 19_026;
const day = (n: number) => dateOf(FIRST_DAY + n);

const climateRows = (from: number, to: number, light = 300) => Array.from({ length: 24 * (to - from) }, (_, i) => {
  const hour = i % 24;
  return `${day(from + Math.floor(i / 24))}T${String(hour).padStart(2, '0')}:00,19,80,600,${hour >= 6 && hour < 20 ? light : 0}`;
}).join('\n');
const climate = (rows: string) => `time,airC,rhPct,co2Ppm,parUmolM2S\n${rows}\n`;
const samples = (rows: string) => `date,plant,freshG,dryG\n${rows}\n`;
const early = `${day(7)},1,4,0.3\n${day(7)},2,4.4,0.33\n${day(14)},1,14,1\n${day(14)},2,15,1.1`;

const texts: ForecastTexts = {
  climateCsv: climate(climateRows(-2, 45)), plantsPerM2Csv: `date,plantsPerM2\n${day(0)},90\n${day(14)},45\n`, samplesCsv: samples(early),
};
const request = {
  crop: 'lettuce', climateCsv: 'climate.csv', outlookCsv: null, plantsPerM2Csv: 'density.csv', planting: day(0), samplesCsv: 'samples.csv', at: day(14), dates: [day(21), day(35)],
};
function answer(change: object = {}, other: Partial<ForecastTexts> = {}) {
  const outcome = forecastFile({ ...request, ...change }, { ...texts, ...other });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome;
}
const refusals = (input: unknown, other: Partial<ForecastTexts> = {}) => {
  const outcome = forecastFile(input, { ...texts, ...other });
  return outcome.ok ? [] : outcome.refusals.map((refusal) => `${refusal.path} ${refusal.code}`);
};

describe('forecast of files', () => {
  it('gives the days asked for, in the form that was promised', () => {
    const { dates, alarms } = answer().value;
    expect(dates.map((one) => one.date)).toEqual([day(21), day(35)]);
    expect(Object.keys(dates[0]!)).toEqual(['date', 'dryG', 'freshG', 'readyShare', 'plant', 'saleableShare']);
    expect(Object.keys(dates[0]!.dryG)).toEqual(['p05', 'p25', 'p50', 'p75', 'p95']);
    expect(dates[1]!.dryG.p50).toBeGreaterThan(dates[0]!.dryG.p50);
    expect(alarms).toEqual([]);
    expect(answer().value).toEqual(answer().value);
  });

  it('never uses samples after `at`, nor climate after it when there is an outlook', () => {
    const known = answer({ outlookCsv: 'outlook.csv' }, { outlookCsv: climate(climateRows(15, 45)) }).value;
    const later = { samplesCsv: samples(`${early}\n${day(15)},1,300,30`), climateCsv: climate(`${climateRows(-2, 15)}\n${climateRows(15, 45, 1500)}`) };
    expect(answer({ outlookCsv: 'outlook.csv' }, { ...later, outlookCsv: climate(climateRows(15, 45)) }).value).toEqual(known);
    expect(answer({}, { samplesCsv: later.samplesCsv }).value).toEqual(answer().value);
    expect(known.dates).toEqual(answer().value.dates);
  });

  it('takes climate after `at` from climateCsv where there is no outlook, even if one is handed in', () => {
    const bright = answer({}, { climateCsv: climate(`${climateRows(-2, 15)}\n${climateRows(15, 45, 600)}`) }).value;
    expect(bright.dates[0]!.dryG.p50).toBeGreaterThan(answer().value.dates[0]!.dryG.p50);
    expect(answer({}, { outlookCsv: climate(climateRows(15, 45, 600)) }).value).toEqual(answer().value);
  });

  it('days up to `at` show what was believed on that day', () => {
    const past = answer({ dates: [day(7), day(14)] }).value;
    expect(past.dates[0]!.dryG.p50).toBeGreaterThan(0.25);
    expect(past.dates[0]!.dryG.p50).toBeLessThan(0.38);
    const alone = answer({ at: day(7), dates: [day(7)] }).value;
    expect(past.dates[0]!.dryG.p50 / alone.dates[0]!.dryG.p50).toBeCloseTo(1, 1);
  });

  it('begins with the climate where that begins after planting, and says so', () => {
    const outcome = answer({ planting: day(-9) });
    expect(outcome.warnings.map((warning) => [warning.path, warning.value])).toEqual([['climate.csv', 7]]);
    expect(outcome.value.dates[0]!.dryG.p50 / answer().value.dates[0]!.dryG.p50).toBeGreaterThan(0.7);
    expect(refusals({ ...request, planting: day(-9), dates: [day(-5)] })).toEqual(['climate.csv value-missing']);
  });

  it('begins a lot unseen for 7 days with a guess: 0.15 a day more, 0.1 a day less sure (own choice)', () => {
    const late = answer({ planting: day(-9), at: day(-1), dates: [day(-1)] }, { samplesCsv: samples('') }).value;
    const young = KNOWN_CROP_GROWTHS['lettuce']!;
    const mine = { ...young, crop: 'mine', seedlingDryG: young.seedlingDryG * Math.exp(1.05), seedlingLogSd: Math.hypot(young.seedlingLogSd, 0.7) };
    const known = forecastFile({ ...request, crop: 'mine', planting: day(-2), at: day(-1), dates: [day(-1)] }, { ...texts, samplesCsv: samples('') }, { mine });
    expect(known.ok && known.value.dates[0]!.dryG.p50 / late.dates[0]!.dryG.p50).toBeCloseTo(1, 9);
    expect(known.ok && known.value.dates[0]!.dryG.p05 / late.dates[0]!.dryG.p05).toBeCloseTo(1, 9);
  });

  it('is made with 400 members from seed 1 unless asked otherwise', () => {
    expect(answer({ members: 400, seed: 1 }).value).toEqual(answer().value);
  });

  it('knows crops by name in any case, crops handed in first, and another market weight', () => {
    expect(answer({ crop: 'Lugano' }).value.basis.modelId).toBe('two-state-lettuce');
    expect(answer({ crop: 'basil' }).value.basis.modelId).toBe('expolinear');
    const own = forecastFile({ ...request, crop: 'mine' }, texts, { mine: { crop: 'mine', modelId: 'expolinear', parameters: {}, seedlingDryG: 0.1, seedlingLogSd: 0.5, readyFreshG: 20, readyShare: 0.8, dryMatter: { intercept: 2.4, slope: 1, daySlope: 1, lotLogSd: 0.1, driftLogSd: 0.1, plantLogSd: 0.1, source: 'test' } } });
    expect(own.ok && own.value.basis.modelId).toBe('expolinear');
    expect(answer({ readyFreshG: 30 }).value.dates[0]!.readyShare).toBeGreaterThan(answer().value.dates[0]!.readyShare + 0.3);
  });
});

describe('requests that are refused', () => {
  it('lists all that is wrong', () => {
    expect(refusals([])).toContain(' syntax');
    expect(refusals({})).toEqual([
      'climateCsv value-missing', 'plantsPerM2Csv value-missing', 'samplesCsv value-missing', 'outlookCsv value-missing', 'crop value-missing', 'planting value-missing', 'at value-missing', 'dates value-missing',
    ]);
    expect(refusals({ ...request, crop: 'toadstool', members: 3, extra: 1, seed: -1, readyFreshG: 'x' })).toEqual([
      'extra key-unknown', 'crop reference-unknown', 'readyFreshG value-out-of-range', 'seed value-out-of-range', 'members value-out-of-range',
    ]);
    expect(refusals({ ...request, at: day(-1), dates: [day(-3), day(500)] })).toEqual(['at inconsistent', 'dates.0 inconsistent', 'dates.1 value-out-of-range']);
    expect(refusals({ ...request, dates: ['tomorrow', 3] })).toEqual(['dates.0 value-not-allowed', 'dates.1 value-not-allowed']);
    expect(refusals({ ...request, crop: 'constructor' })).toEqual(['crop reference-unknown']);
  });

  it('takes numbers up to their limits and no further, and dates up to 400 days ahead', () => {
    const crops = { lettuce: KNOWN_CROP_GROWTHS['lettuce']! };
    const codes = (change: object) => {
      const outcome = checkForecastRequest({ ...request, ...change }, crops);
      return outcome.ok ? [] : outcome.refusals.map(({ path, code }) => `${path} ${code}`);
    };
    for (const [key, least, most, step] of [['readyFreshG', 0.1, 1e5, 1e-3], ['seed', 0, 4_294_967_295, 1], ['members', 20, 5000, 1]] as const) {
      for (const value of [least, most]) expect(codes({ [key]: value }), `${key} ${value}`).toEqual([]);
      for (const value of [least - step, most + step]) expect(codes({ [key]: value }), `${key} ${value}`).toEqual([`${key} value-out-of-range`]);
    }
    expect(codes({ dates: [day(414)] })).toEqual([]);
    expect(codes({ dates: [day(415)] })).toEqual(['dates.0 value-out-of-range']);
  });

  it('names the files of wrong tables and climate that ends too early', () => {
    expect(refusals(request, { samplesCsv: samples('x,1,1,0.1'), plantsPerM2Csv: 'date\n' })).toEqual(['density.csv:1:1 value-missing', 'samples.csv:2:1 value-not-allowed']);
    expect(refusals({ ...request, dates: [day(60)] })).toEqual(['climate.csv value-missing', 'climate.csv value-missing', 'climate.csv value-missing']);
  });
});
