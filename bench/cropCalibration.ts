/**
 * Do the bands deserve trust? 300 invented lots whose truth is not the filter's model (inventedLots.ts), six plants sampled now and
 * then, forecasts after two to five samples (one lot in turn). Counts how often the 90 % bands hold one week ahead and at harvest,
 * and how often the growth alarm rises on sound lots and on lots that lose 40 % of their growth from the first third on.
 * Run: npx tsx bench/cropCalibration.ts [lots] [model id]
 */
import { pathToFileURL } from 'node:url';
import { dateOf } from '../src/science/crop/calendar.ts';
import { forecastLot } from '../src/science/crop/forecastLot.ts';
import type { LotForecast, LotForecastInput, Quantiles } from '../src/science/crop/lotForecast.ts';
import type { InventedKind, InventedLot } from './inventedLots.ts';
import { FIRST_DAY, FRUITING, inventLot, LEAFY } from './inventedLots.ts';

/** The forecast made on the day of a sample (or of planting, with none), to harvest. */
export function forecastInvented(lot: InventedLot, kind: InventedKind, sampleCount: number, change: Partial<LotForecastInput> = {}): LotForecast {
  const day = sampleCount === 0 ? 0 : kind.sampleDays[sampleCount - 1]!;
  const forecast = forecastLot({ ...lot.input, samples: lot.samples.slice(0, sampleCount), at: dateOf(FIRST_DAY + day), horizonDays: kind.days - day, ...change });
  if (!forecast.ok) throw new Error(JSON.stringify(forecast.refusals));
  return forecast.value;
}

export const kindOf = (modelId: string): InventedKind => (modelId === FRUITING.modelId ? FRUITING : { ...LEAFY, modelId });
export const inBand = (value: number, band: Quantiles) => value >= band.p05 && value <= band.p95;

/** Shares of all lots: bands that held, alarms; error and bias of the median one week ahead, percent of the true dry mass. */
export interface Calibration {
  readonly weekDry: number; readonly weekFresh: number; readonly endDry: number; readonly endFresh: number; readonly plantFresh: number;
  readonly weekErrorPct: number; readonly weekBiasPct: number; readonly falseAlarms: number; readonly foundLosses: number;
}

/** `sampleCount`: how many samples the forecasts have; two to five in turn where absent. Alarms take two more forecasts a lot. */
export function calibrate(lots: number, modelId: string, sampleCount?: number, alarms = sampleCount === undefined): Calibration {
  const kind = kindOf(modelId);
  const sums = { weekDry: 0, weekFresh: 0, endDry: 0, endFresh: 0, plantFresh: 0, weekErrorPct: 0, weekBiasPct: 0, falseAlarms: 0, foundLosses: 0 };
  const below = (of: LotForecast) => Number(of.alarms.some((alarm) => alarm.name === 'growth-below-model'));
  for (let i = 0; i < lots; i += 1) {
    const lot = inventLot(1000 + i, kind);
    const count = sampleCount ?? 2 + i % 4;
    const forecast = forecastInvented(lot, kind, count);
    const week = (count === 0 ? 0 : kind.sampleDays[count - 1]!) + 7;
    const [weekAhead, end] = [forecast.dates[7]!, forecast.dates.at(-1)!];
    sums.weekDry += Number(inBand(lot.dryG[week]!, weekAhead.dryG));
    sums.weekFresh += Number(inBand(lot.freshG[week]!, weekAhead.freshG));
    sums.plantFresh += Number(inBand(lot.onePlantFreshG[week]!, weekAhead.plant.freshG));
    sums.endDry += Number(inBand(lot.dryG.at(-1)!, end.dryG));
    sums.endFresh += Number(inBand(lot.freshG.at(-1)!, end.freshG));
    const error = 100 * (weekAhead.dryG.p50 / lot.dryG[week]! - 1);
    sums.weekErrorPct += Math.abs(error);
    sums.weekBiasPct += error;
    if (!alarms) continue;
    sums.falseAlarms += below(forecastInvented(lot, kind, 5));
    sums.foundLosses += below(forecastInvented(inventLot(1000 + i, { ...kind, lostShare: 0.4 }), kind, 5));
  }
  return Object.fromEntries(Object.entries(sums).map(([name, sum]) => [name, sum / lots])) as unknown as Calibration;
}

export const describeCalibration = (found: Calibration): string =>
  Object.entries(found).map(([name, value]) => `${name} ${name.endsWith('Pct') ? `${value.toFixed(1)} %` : `${(100 * value).toFixed(0)} %`}`).join(', ');

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const lots = Number(process.argv[2] ?? 300);
  for (const modelId of process.argv[3] === undefined ? ['two-state-lettuce', 'expolinear', 'reduced-tomato'] : [process.argv[3]]) {
    console.log(`${modelId}, ${lots} lots, after two to five samples: ${describeCalibration(calibrate(lots, modelId))}`);
    for (const sampleCount of [0, 1]) console.log(`  with ${sampleCount} samples: ${describeCalibration(calibrate(lots, modelId, sampleCount))}`);
  }
}
