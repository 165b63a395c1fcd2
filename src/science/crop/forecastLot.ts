/** The forecast of one lot: weight by day with its spread, readiness, demand, and whether something is wrong with the crop. */
import type { Outcome } from '../refusal.ts';
import { accepted, refused } from '../refusal.ts';
import { seedFor, startRandom } from '../seededRandom.ts';
import { covariance, meanOf } from './assimilate.ts';
import { dayNumberOf } from './calendar.ts';
import { checkLotInput } from './checkLotInput.ts';
import { densityOn } from './densitySchedule.ts';
import { findGrowthAlarms } from './growthAlarms.ts';
import { checkGrowth, forecastOfLook } from './growthChecks.ts';
import type { LookForecast } from './growthChecks.ts';
import type { GrowthModel } from './growthModel.ts';
import { createGrowthModel } from './growthModels.ts';
import type { GrowthPrior, LogBelief } from './growthPrior.ts';
import { growthPriorOf } from './growthPriorOf.ts';
import type { LotLesson } from './learnFromLots.ts';
import type { LotEnsemble } from './lotEnsemble.ts';
import { createLotEnsemble } from './lotEnsemble.ts';
import type { LotForecast, LotForecastInput } from './lotForecast.ts';
import { LotRecord } from './lotRecord.ts';
import type { Look } from './sampleLooks.ts';
import { biasSpreads, lookOfObservation, looksOfSample, plantSpread } from './sampleLooks.ts';
import { findValidityAlarms } from './validityAlarms.ts';
import type { LotWalk } from './walkLot.ts';
import { walkLot } from './walkLot.ts';

/** Members of the uncorrected run, of which only the middle is used. */
const REFERENCE_MEMBERS = 40;

/** Sees the members at noon of each day, after the day's looks; must leave them as they are. */
export type LotWatch = (day: number, ensemble: LotEnsemble) => void;

/**
 * Forecasts a lot from `at` to `horizonDays` later, by the day at noon.
 * Samples and observations dated after `at` or before planting are not used. Climate after `at` is the caller's outlook.
 * The same input gives the same forecast, bit for bit.
 * Refuses impossible dates, masses, densities, parameters, unknown models, and climate that does not cover the days asked for.
 */
export function forecastLot(input: LotForecastInput, watch?: LotWatch): Outcome<LotForecast> {
  const refusals = checkLotInput(input);
  const model = createGrowthModel(input.crop.modelId, input.crop.parameters);
  if (!model.ok) return refused([...refusals, ...model.refusals]);
  if (refusals.length > 0) return refused(refusals);
  return accepted(forecastChecked(input, model.value, watch));
}

function forecastChecked(input: LotForecastInput, model: GrowthModel, watch: LotWatch | undefined): LotForecast {
  const prior = input.prior ?? growthPriorOf(input.crop);
  const usable = (date: string) => date <= input.at && date >= input.planting;
  const samples = input.samples.filter((sample) => usable(sample.date) && sample.plants.length > 0);
  const observations = (input.observations ?? []).filter((seen) => usable(seen.date));
  const plantLogSd = plantSpread(prior, samples);
  const looks = [...samples.flatMap((sample) => looksOfSample(sample, input.crop, prior, plantLogSd)), ...observations.map(lookOfObservation)]
    .sort((a, b) => a.day - b.day);
  const record = new LotRecord(input, plantLogSd);
  const atDay = dayNumberOf(input.at)!;
  let learned: LotLesson | undefined;
  const learning = runLot(input, model, prior, input.members, {
    looks, endDay: atDay + input.horizonDays,
    atNoon: (day, ensemble) => {
      if (day === atDay) learned = lessonOf(ensemble, prior);
      record.take(day, ensemble);
      watch?.(day, ensemble);
    },
  });
  const checks = checkGrowth(learning, (some) => runLot(input, model, prior, REFERENCE_MEMBERS, { looks: some, endDay: some.at(-1)!.day }));
  return {
    dates: record.dates, readyDate: record.readyDate(), ...record.demand(),
    alarms: [...findGrowthAlarms(checks), ...findValidityAlarms(input, model)],
    basis: {
      modelId: model.id, modelSource: model.source, members: input.members, seed: input.seed, plantLogSd, learned: learned!,
      samplesUsed: samples.map((sample) => sample.date), observationsUsed: observations.map((seen) => `${seen.date} ${seen.from}`),
    },
  };
}

/** Runs a lot from planting; tells what was forecast for each look. */
function runLot(input: LotForecastInput, model: GrowthModel, prior: GrowthPrior, members: number, walk: Pick<LotWalk, 'looks' | 'endDay' | 'atNoon'>): LookForecast[] {
  const random = startRandom(seedFor(input.seed, 'lot'));
  const startDay = dayNumberOf(input.planting)!;
  const plantsPerM2On = densityOn(input.densities);
  const start = prior.start ?? { mean: 0, sd: input.crop.seedlingLogSd };
  const seedlings = { shootDryGPerPlant: input.crop.seedlingDryG * Math.exp(start.mean), logSd: start.sd, plantsPerM2: plantsPerM2On(startDay) };
  const ensemble = createLotEnsemble(model, prior, seedlings, members, random, biasSpreads(walk.looks));
  const forecasts: LookForecast[] = [];
  const beforeLook = (look: Look, predicted: Float64Array) => forecasts.push(forecastOfLook(look, predicted));
  walkLot({ climate: input.climate, startDay, plantsPerM2On, dryMatter: input.crop.dryMatter, beforeLook, ...walk }, ensemble, random);
  return forecasts;
}

function lessonOf(ensemble: LotEnsemble, prior: GrowthPrior): LotLesson {
  const start = beliefOf(ensemble.lotStart);
  return {
    assimilation: beliefOf(ensemble.lotAssimilation), expansion: beliefOf(ensemble.lotExpansion), freshness: beliefOf(ensemble.lotFreshness),
    start: { mean: (prior.start?.mean ?? 0) + start.mean, sd: start.sd },
  };
}

function beliefOf(logs: Float64Array): LogBelief {
  const mean = meanOf(logs);
  return { mean, sd: Math.sqrt(covariance(logs, mean, logs, mean)) };
}
