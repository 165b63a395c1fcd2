/**
 * Do the bands deserve trust? 300 invented lots whose truth is not the filter's model: light use by the day (Monteith 1977)
 * on ground cover, leaf area per gram that halves as a plant grows up (as in the lettuce of 2021), a highest relative growth that rises with temperature, light use that falls in strong light as measured by
 * Carotti et al. 2021 (1.01, 0.87, 0.76 g dry/mol at 200, 400, 750 umol/m2/s), a dry-matter share of its own shape.
 * Samples of six plants a week. Counts how often the 90 % bands hold, and how often the growth alarm rises on sound lots
 * and on lots that lose a part of their growth halfway.
 * Run: npx tsx bench/cropCalibration.ts [lots] [model id]
 */
import { pathToFileURL } from 'node:url';
import { dateOf } from '../src/science/crop/calendar.ts';
import { KNOWN_CROP_GROWTHS } from '../src/science/crop/cropGrowths.ts';
import { forecastLot } from '../src/science/crop/forecastLot.ts';
import type { DensityStep, LotForecast, LotForecastInput, PlantSample, Quantiles } from '../src/science/crop/lotForecast.ts';
import type { RandomStream } from '../src/science/seededRandom.ts';
import { startRandom } from '../src/science/seededRandom.ts';

const FIRST_DAY = 19_026;
const DAYS = 42;
const SAMPLE_DAYS = [5, 12, 19, 26, 33];

interface InventedLot {
  readonly input: Omit<LotForecastInput, 'at' | 'horizonDays' | 'samples'>;
  readonly samples: readonly PlantSample[];
  /** True mean dry and fresh mass per plant at noon of each day since planting. */
  readonly dryG: readonly number[];
  readonly freshG: readonly number[];
  /** One plant of the lot, fresh, each day. */
  readonly onePlantFreshG: readonly number[];
}

/** An invented lot; `lostShare` of its growth is lost from day 15 on. */
export function inventLot(seed: number, modelId: string, lostShare = 0): InventedLot {
  const random = startRandom(seed);
  const days = inventDays(random);
  const densities = inventDensities(random);
  const truth = growTruth(random, days, densities, lostShare);
  const freshness = 0.12 * random.normal();
  let drift = 0.09 * random.normal();
  const freshG = truth.map((dryG) => {
    drift = 0.87 * drift + 0.09 * Math.sqrt(1 - 0.87 ** 2) * random.normal();
    return dryG / (0.046 + 0.044 * Math.exp(-dryG / 1.4)) * Math.exp(freshness + drift);
  });
  const plantSd = 0.12 + 0.14 * random.uniform();
  const plant = (mean: number) => mean * Math.exp(plantSd * random.normal() - plantSd ** 2 / 2);
  const samples = SAMPLE_DAYS.map((day) => ({ date: dateOf(FIRST_DAY + day), plants: Array.from({ length: 6 }, () => {
    const dryG = plant(truth[day]!);
    return { dryG, freshG: Math.max(dryG * 5, dryG / truth[day]! * freshG[day]! * Math.exp(0.1 * random.normal() - 0.005)) };
  }) }));
  const crop = { ...KNOWN_CROP_GROWTHS['lettuce']!, modelId };
  return {
    input: { crop, planting: dateOf(FIRST_DAY), densities, seed, members: 200, climate: climateOf(days) },
    samples, dryG: truth, freshG,
    onePlantFreshG: truth.map((dryG, day) => plant(dryG) / dryG * freshG[day]! * Math.exp(0.1 * random.normal() - 0.005)),
  };
}

interface Day { readonly dliMolM2: number; readonly airC: number; readonly co2Ppm: number }

function inventDays(random: RandomStream): Day[] {
  const level = 8 + 7 * random.uniform();
  const warmth = 16 + 5 * random.uniform();
  const co2 = 420 + 400 * random.uniform();
  return Array.from({ length: DAYS + 1 }, () => ({
    dliMolM2: Math.max(2, level * (1 + 0.3 * random.normal())), airC: warmth + 1.2 * random.normal(), co2Ppm: co2,
  }));
}

function inventDensities(random: RandomStream): DensityStep[] {
  const at = (day: number, plantsPerM2: number) => ({ date: dateOf(FIRST_DAY + day), plantsPerM2 });
  const shift = random.below(4);
  return [at(0, 90), at(10 + shift, 60), at(15 + shift, 45), at(19 + shift, 30), at(26 + shift, 20)];
}

/** The invented truth: mean dry mass per plant at noon of each day. */
function growTruth(random: RandomStream, days: readonly Day[], densities: readonly DensityStep[], lostShare: number): number[] {
  const vigour = Math.exp(0.2 * random.normal());
  const early = 0.42 * Math.exp(0.1 * random.normal());
  const areaPerGram = 0.035 * Math.exp(0.15 * random.normal());
  let disturbance = 0;
  let massG = 0.077 * Math.exp(0.6 * random.normal());
  return days.map((day, i) => {
    if (i === 0) return massG;
    disturbance = 0.7 * disturbance + 0.15 * random.normal();
    const plantsPerM2 = densities.findLast((step) => step.date <= dateOf(FIRST_DAY + i))!.plantsPerM2;
    const cover = 1 - Math.exp(-0.75 * areaPerGram * (1 + Math.exp(-massG / 0.5)) * massG * plantsPerM2);
    const perMol = 1.05 - 0.02 * day.dliMolM2;
    const byLight = perMol * day.dliMolM2 * cover / plantsPerM2;
    const byLeaves = early * Math.max(0.2, (day.airC - 4) / 16) * massG;
    const kept = i >= 15 ? 1 - lostShare : 1;
    massG += kept * vigour * Math.exp(disturbance) * byLight * byLeaves / (byLight + byLeaves) * 1.25;
    return massG;
  });
}

/** Light as a half sine from 6 to 20 h, air 3 K warmer in the afternoon. */
function climateOf(days: readonly Day[]) {
  const hourly = (of: (day: Day, hour: number) => number) => Float64Array.from({ length: days.length * 24 }, (_, i) => of(days[Math.floor(i / 24)]!, i % 24));
  return {
    startUtcHour: FIRST_DAY * 24, utcOffsetH: 0, co2Ppm: hourly((day) => day.co2Ppm),
    airC: hourly((day, hour) => day.airC + 1.5 * Math.sin((hour - 8) * Math.PI / 12)),
    ppfdUmolM2S: hourly((day, hour) => (hour >= 6 && hour < 20 ? day.dliMolM2 * 1e6 / 3600 * Math.sin((hour - 5.5) * Math.PI / 14) / 8.9 : 0)),
  };
}

export function forecastInvented(lot: InventedLot, sampleCount: number): LotForecast {
  const samples = lot.samples.slice(0, sampleCount);
  const at = samples.at(-1)!.date;
  const forecast = forecastLot({ ...lot.input, samples, at, horizonDays: DAYS - SAMPLE_DAYS[sampleCount - 1]! });
  if (!forecast.ok) throw new Error(JSON.stringify(forecast.refusals));
  return forecast.value;
}

const inBand = (value: number, band: Quantiles) => value >= band.p05 && value <= band.p95;

export interface Calibration {
  readonly weekDry: number; readonly weekFresh: number; readonly endDry: number; readonly endFresh: number; readonly plantFresh: number;
  readonly weekErrorPct: number; readonly weekBiasPct: number; readonly falseAlarms: number; readonly foundLosses: number;
}

/** Shares over all lots, forecasts after two to five samples (one lot in turn). */
export function calibrate(lots: number, modelId: string): Calibration {
  const sums = { weekDry: 0, weekFresh: 0, endDry: 0, endFresh: 0, plantFresh: 0, weekErrorPct: 0, weekBiasPct: 0, falseAlarms: 0, foundLosses: 0 };
  for (let i = 0; i < lots; i += 1) {
    const lot = inventLot(1000 + i, modelId);
    const sampleCount = 2 + i % 4;
    const forecast = forecastInvented(lot, sampleCount);
    const week = SAMPLE_DAYS[sampleCount - 1]! + 7;
    const [weekAhead, end] = [forecast.dates[7]!, forecast.dates.at(-1)!];
    sums.weekDry += Number(inBand(lot.dryG[week]!, weekAhead.dryG));
    sums.weekFresh += Number(inBand(lot.freshG[week]!, weekAhead.freshG));
    sums.plantFresh += Number(inBand(lot.onePlantFreshG[week]!, weekAhead.plant.freshG));
    sums.endDry += Number(inBand(lot.dryG[DAYS]!, end.dryG));
    sums.endFresh += Number(inBand(lot.freshG[DAYS]!, end.freshG));
    const error = 100 * (weekAhead.dryG.p50 / lot.dryG[week]! - 1);
    sums.weekErrorPct += Math.abs(error);
    sums.weekBiasPct += error;
    const below = (of: LotForecast) => Number(of.alarms.some((alarm) => alarm.name === 'growth-below-model'));
    sums.falseAlarms += below(forecastInvented(lot, 5));
    sums.foundLosses += below(forecastInvented(inventLot(1000 + i, modelId, 0.4), 5));
  }
  return Object.fromEntries(Object.entries(sums).map(([name, sum]) => [name, sum / lots])) as unknown as Calibration;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const lots = Number(process.argv[2] ?? 300);
  for (const modelId of process.argv[3] === undefined ? ['two-state-lettuce', 'expolinear'] : [process.argv[3]]) {
    const found = calibrate(lots, modelId);
    console.log(`${modelId}, ${lots} lots: ${Object.entries(found).map(([name, value]) => `${name} ${value.toFixed(3)}`).join(', ')}`);
  }
}
