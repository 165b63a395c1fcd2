/**
 * Does the next lot of a cultivar begin better for what earlier ones taught? Seasons of ten invented lots (inventedLots.ts) that share
 * half of the variance of light use, early growth and dry matter; lot k is forecast to harvest on its planting day and after its first
 * sample, once with what lots 1 to k-1 taught and once without. Run: npx tsx bench/cropLearning.ts [seasons] [lots]
 */
import { pathToFileURL } from 'node:url';
import { growthPriorOf } from '../src/science/crop/growthPriorOf.ts';
import type { AgedLesson } from '../src/science/crop/learnFromLots.ts';
import { learnFromLots } from '../src/science/crop/learnFromLots.ts';
import type { LotForecast } from '../src/science/crop/lotForecast.ts';
import { startRandom } from '../src/science/seededRandom.ts';
import { forecastInvented, inBand } from './cropCalibration.ts';
import type { InventedKind, InventedLot } from './inventedLots.ts';
import { BETWEEN_LOTS, inventLot, LEAFY } from './inventedLots.ts';

/** One way of forecasting: mean absolute error of the median at harvest, mean width of the 90 % band (as ln p95/p05), share of bands that held. */
export interface LearningScore { readonly errorPct: number; readonly width: number; readonly held: number; readonly forecasts: number }

const DAYS_BETWEEN_LOTS = 7;

/** Scores of lots 2 to `lots`, fresh mass at harvest, by when (0 or 1 samples) and how. */
export function learnOverLots(seasons: number, lots: number, modelId = 'two-state-lettuce'): Record<'day0Taught' | 'day0Alone' | 'sample1Taught' | 'sample1Alone', LearningScore> {
  const found = { day0Taught: newTally(), day0Alone: newTally(), sample1Taught: newTally(), sample1Alone: newTally() };
  for (let season = 0; season < seasons; season += 1) {
    const random = startRandom(7_000 + season);
    const share = (of: keyof typeof BETWEEN_LOTS) => Math.SQRT1_2 * BETWEEN_LOTS[of] * random.normal();
    const kind: InventedKind = { ...LEAFY, modelId, shared: { lightUse: share('lightUse'), early: share('early'), matter: share('matter') } };
    const grown: InventedLot[] = [];
    for (let k = 0; k < lots; k += 1) {
      const lot = inventLot(100_000 + 100 * season + k, kind);
      if (k > 0) {
        const prior = learnFromLots(growthPriorOf(lot.input.crop), lessonsFor(grown, kind, k));
        tally(found.day0Taught, lot, forecastInvented(lot, kind, 0, { prior }));
        tally(found.day0Alone, lot, forecastInvented(lot, kind, 0));
        tally(found.sample1Taught, lot, forecastInvented(lot, kind, 1, { prior }));
        tally(found.sample1Alone, lot, forecastInvented(lot, kind, 1));
      }
      grown.push(lot);
    }
  }
  return { day0Taught: scoreOf(found.day0Taught), day0Alone: scoreOf(found.day0Alone), sample1Taught: scoreOf(found.sample1Taught), sample1Alone: scoreOf(found.sample1Alone) };
}

/** What each earlier lot had shown by now: one lot a week, each as far as its samples reach on this day. */
function lessonsFor(grown: readonly InventedLot[], kind: InventedKind, k: number): AgedLesson[] {
  return grown.flatMap((lot, j) => {
    const ageDays = DAYS_BETWEEN_LOTS * (k - j);
    const samples = kind.sampleDays.filter((day) => day <= ageDays).length;
    return samples === 0 ? [] : [{ ageDays, lesson: forecastInvented(lot, kind, samples, { horizonDays: 0, members: 60 }).basis.learned }];
  });
}

interface Tally { error: number; width: number; held: number; count: number }
const newTally = (): Tally => ({ error: 0, width: 0, held: 0, count: 0 });

function tally(into: Tally, lot: InventedLot, forecast: LotForecast): void {
  const { freshG } = forecast.dates.at(-1)!;
  const truth = lot.freshG.at(-1)!;
  into.error += Math.abs(freshG.p50 / truth - 1);
  into.width += Math.log(freshG.p95 / freshG.p05);
  into.held += Number(inBand(truth, freshG));
  into.count += 1;
}

const scoreOf = ({ error, width, held, count }: Tally): LearningScore => ({ errorPct: 100 * error / count, width: width / count, held: held / count, forecasts: count });

export const describeLearning = (scores: Readonly<Record<string, LearningScore>>): string => Object.entries(scores)
  .map(([name, { errorPct, width, held, forecasts }]) => `${name}: error ${errorPct.toFixed(1)} %, ln p95/p05 ${width.toFixed(2)}, held ${(100 * held).toFixed(0)} % of ${forecasts}`).join('; ');

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  for (const modelId of ['two-state-lettuce', 'expolinear']) console.log(`${modelId}: ${describeLearning(learnOverLots(Number(process.argv[2] ?? 30), Number(process.argv[3] ?? 10), modelId))}`);
}
