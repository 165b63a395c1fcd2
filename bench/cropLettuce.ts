/**
 * The forecasts on measured crops: lettuce-2022 (third Autonomous Greenhouse Challenge, first crop of 2022; Koidra, MIT).
 * Nothing here or in the models was fitted to these crops; the priors come from Van Henten 1994 and the lettuce of 2021.
 * Run: npx tsx bench/cropLettuce.ts
 */
import { existsSync, readFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { dateOf, dayNumberOf } from '../src/science/crop/calendar.ts';
import { joinClimate, readClimateTable } from '../src/science/crop/climateTable.ts';
import { readDensities, readSamples } from '../src/science/crop/cropTables.ts';
import { densityOn } from '../src/science/crop/densitySchedule.ts';
import { freshOf, LETTUCE_DRY_MATTER } from '../src/science/crop/dryMatter.ts';
import type { ForecastAnswer, ForecastTexts } from '../src/science/crop/forecastFile.ts';
import { forecastFile } from '../src/science/crop/forecastFile.ts';
import type { DensityStep, PlantSample, Quantiles } from '../src/science/crop/lotForecast.ts';
import { createTwoStateLettuce } from '../src/science/crop/twoStateLettuce.ts';
import type { Outcome } from '../src/science/refusal.ts';

export const LETTUCE_2022 = '../shared/data/lettuce-2022';
export const hasLettuce2022 = () => existsSync(`${LETTUCE_2022}/a/climate.csv`);

export interface MeasuredCrop {
  readonly name: string;
  readonly texts: ForecastTexts;
  readonly planting: string;
  readonly samples: readonly PlantSample[];
  readonly densities: readonly DensityStep[];
  /** Mean dry mass of each sample, g. */
  readonly dryG: readonly number[];
  readonly freshG: readonly number[];
  readonly harvestDate: string;
  /** Mean fresh mass of all heads weighed at harvest, g. */
  readonly harvestFreshG: number;
}

/** One forecast beside what came. */
export interface Comparison {
  readonly crop: string;
  readonly from: string;
  readonly to: string;
  readonly measuredG: number;
  readonly forecastG: Quantiles;
  /** The published model run on from the first sample, uncorrected; fresh mass by the dry-matter curve of 2021. */
  readonly uncalibratedG?: number;
  /** ln mass carried on in a straight line through the last two samples; absent where there is only one. */
  readonly exponentialG?: number;
}

export function loadCrop(name: string): MeasuredCrop {
  const read = (file: string) => readFileSync(`${LETTUCE_2022}/${name}/${file}`, 'utf8');
  const texts = { climateCsv: read('climate.csv'), plantsPerM2Csv: read('density.csv'), samplesCsv: read('samples.csv') };
  const samples = take(readSamples(texts.samplesCsv, 'samples.csv'));
  const densities = take(readDensities(texts.plantsPerM2Csv, 'density.csv'));
  const heads = read('harvest.csv').trim().split('\n').slice(1).map((line) => line.split(','));
  return {
    name, texts, samples, densities, planting: densities[0]!.date,
    dryG: samples.map((sample) => mean(sample.plants.map((plant) => plant.dryG!))), freshG: samples.map((sample) => mean(sample.plants.map((plant) => plant.freshG!))),
    harvestDate: heads[0]![0]!, harvestFreshG: mean(heads.map((head) => Number(head[2]))),
  };
}

/** The forecast made on a sample day for that day and each later one; made once a crop and day. */
export function forecastCrop(crop: MeasuredCrop, at: string, cropName = 'lettuce'): ForecastAnswer {
  const key = `${crop.name} ${at} ${cropName}`;
  const made = forecasts.get(key) ?? take(forecastFile({
    crop: cropName, climateCsv: 'climate.csv', outlookCsv: null, plantsPerM2Csv: 'density.csv', samplesCsv: 'samples.csv', planting: crop.planting, at,
    dates: [...new Set([...crop.samples.map((sample) => sample.date), crop.harvestDate])].filter((date) => date >= at),
  }, crop.texts));
  forecasts.set(key, made);
  return made;
}
const forecasts = new Map<string, ForecastAnswer>();

const forecastOf = (crop: MeasuredCrop, at: string, date: string, cropName?: string) => forecastCrop(crop, at, cropName).dates.find((day) => day.date === date)!;

/** From each sample on but the first, the next one: dry mass. */
export function compareWeekly(crop: MeasuredCrop, cropName?: string): Comparison[] {
  const open = runUncalibrated(crop);
  return crop.samples.slice(1, -1).map((sample, k) => {
    const i = k + 1;
    const next = crop.samples[i + 1]!.date;
    return {
      crop: crop.name, from: sample.date, to: next, measuredG: crop.dryG[i + 1]!, forecastG: forecastOf(crop, sample.date, next, cropName).dryG,
      uncalibratedG: open[i + 1]!, exponentialG: extrapolate(crop, crop.dryG, i, next),
    };
  });
}

/** From the last weekly sample to all heads at harvest: fresh mass. */
export function compareHarvest(crop: MeasuredCrop, cropName?: string): Comparison {
  const i = crop.samples.findLastIndex((sample) => sample.date < crop.harvestDate);
  const from = crop.samples[i]!.date;
  return {
    crop: crop.name, from, to: crop.harvestDate, measuredG: crop.harvestFreshG, forecastG: forecastOf(crop, from, crop.harvestDate, cropName).freshG,
    uncalibratedG: freshOf(LETTUCE_DRY_MATTER, runUncalibrated(crop).at(-1)!), exponentialG: extrapolate(crop, crop.freshG, i, crop.harvestDate),
  };
}

/** From each of the first five samples to all heads at harvest: fresh mass, and dry mass of the heads dried. */
export function compareFinal(crop: MeasuredCrop, cropName?: string): { readonly fresh: Comparison; readonly dry: Comparison }[] {
  const open = runUncalibrated(crop);
  return crop.samples.slice(0, 5).map(({ date }, i) => {
    const day = forecastOf(crop, date, crop.harvestDate, cropName);
    const route = { crop: crop.name, from: date, to: crop.harvestDate };
    const carriedOn = (grams: readonly number[]) => (i === 0 ? {} : { exponentialG: extrapolate(crop, grams, i, crop.harvestDate) });
    return {
      fresh: { ...route, measuredG: crop.harvestFreshG, forecastG: day.freshG, ...carriedOn(crop.freshG) },
      dry: { ...route, measuredG: crop.dryG.at(-1)!, forecastG: day.dryG, uncalibratedG: open.at(-1)!, ...carriedOn(crop.dryG) },
    };
  });
}

function extrapolate(crop: MeasuredCrop, grams: readonly number[], i: number, to: string): number {
  const day = (date: string) => dayNumberOf(date)!;
  const rate = Math.log(grams[i]! / grams[i - 1]!) / (day(crop.samples[i]!.date) - day(crop.samples[i - 1]!.date));
  return grams[i]! * Math.exp(rate * (day(to) - day(crop.samples[i]!.date)));
}

/** Dry mass per plant at each sample, from the first sample on with the model as published. */
function runUncalibrated(crop: MeasuredCrop): number[] {
  const model = take(createTwoStateLettuce());
  const density = densityOn(crop.densities);
  const first = dayNumberOf(crop.samples[0]!.date)! * 24 + 12;
  const last = dayNumberOf(crop.samples.at(-1)!.date)! * 24 + 12;
  const table = take(readClimateTable(crop.texts.climateCsv, 'climate.csv'));
  const climate = take(joinClimate(table, table, first, last, last));
  let plantsPerM2 = density(Math.floor(first / 24));
  const state = model.createState({ shootDryGPerPlant: crop.dryG[0]!, plantsPerM2 });
  const at = new Map<string, number>([[crop.samples[0]!.date, crop.dryG[0]!]]);
  for (let hour = first; hour < last; hour += 1) {
    const next = density(Math.floor(hour / 24));
    if (next !== plantsPerM2) model.respace(state, plantsPerM2, next);
    plantsPerM2 = next;
    const i = hour - first;
    model.step(state, { airC: climate.airC[i]!, co2Ppm: climate.co2Ppm[i]!, ppfdUmolM2S: climate.ppfdUmolM2S[i]! }, 3600);
    if ((hour + 1) % 24 === 12) at.set(dateOf(Math.floor((hour + 1) / 24)), model.shootDryGPerM2(state) / plantsPerM2);
  }
  return crop.samples.map((sample) => at.get(sample.date)!);
}

function take<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.refusals));
  return outcome.value;
}
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** Mean absolute error, percent of what was measured, over the comparisons that have such a figure. */
export function absoluteErrorPct(of: readonly Comparison[], grams: (one: Comparison) => number | undefined): number {
  return 100 * mean(of.flatMap((one) => {
    const forecast = grams(one);
    return forecast === undefined ? [] : [Math.abs(forecast / one.measuredG - 1)];
  }));
}
export const holds = (one: Comparison) => one.measuredG >= one.forecastG.p05 && one.measuredG <= one.forecastG.p95;

export function describeComparison(one: Comparison): string {
  const q = one.forecastG;
  const error = (grams: number) => `${grams.toFixed(grams < 50 ? 2 : 0)} g (${(100 * (grams / one.measuredG - 1)).toFixed(0)} %)`;
  return `${one.crop} ${one.from} -> ${one.to}: measured ${one.measuredG.toFixed(2)}, forecast ${error(q.p50)} [${q.p05.toFixed(2)} .. ${q.p95.toFixed(2)}]${holds(one) ? '' : ' outside'}`
    + (one.uncalibratedG === undefined ? '' : `, uncalibrated ${error(one.uncalibratedG)}`) + (one.exponentialG === undefined ? '' : `, exponential ${error(one.exponentialG)}`);
}

function report(cropName: string): void {
  const crops = ['a', 'b', 'c'].map(loadCrop);
  const weekly = crops.flatMap((crop) => compareWeekly(crop, cropName));
  const harvest = crops.map((crop) => compareHarvest(crop, cropName));
  [...weekly, ...harvest].forEach((one) => console.log(describeComparison(one)));
  crops.flatMap((crop) => compareFinal(crop, cropName)).forEach(({ fresh, dry }) => console.log(`fresh ${describeComparison(fresh)}\n  dry ${describeComparison(dry)}`));
  const mape = (of: readonly Comparison[], grams: (one: Comparison) => number | undefined) => absoluteErrorPct(of, grams).toFixed(1);
  console.log(`one sample ahead, dry: forecast ${mape(weekly, (one) => one.forecastG.p50)} %, uncalibrated ${mape(weekly, (one) => one.uncalibratedG)} %, exponential ${mape(weekly, (one) => one.exponentialG)} %; band holds ${weekly.filter(holds).length} of ${weekly.length}`);
  console.log(`last sample to harvest, fresh: forecast ${mape(harvest, (one) => one.forecastG.p50)} %, uncalibrated ${mape(harvest, (one) => one.uncalibratedG)} %, exponential ${mape(harvest, (one) => one.exponentialG)} %; band holds ${harvest.filter(holds).length} of ${harvest.length}`);
  for (const crop of crops) {
    for (const sample of crop.samples) {
      const { alarms, basis } = forecastCrop(crop, sample.date, cropName);
      const { assimilation, expansion, freshness } = basis.learned;
      console.log(`${crop.name} ${sample.date} learned A ${assimilation.mean.toFixed(2)}+-${assimilation.sd.toFixed(2)} E ${expansion.mean.toFixed(2)}+-${expansion.sd.toFixed(2)} F ${freshness.mean.toFixed(2)}+-${freshness.sd.toFixed(2)} plants ${basis.plantLogSd.toFixed(2)} | ${alarms.map((alarm) => `${alarm.name}: ${alarm.sentence}`).join(' | ')}`);
    }
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) report(process.argv[2] ?? 'lettuce');
