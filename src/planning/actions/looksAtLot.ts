import { DEFAULT_GROWTH_PRIOR } from '../../science/crop/growthPrior.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';
import { countOf, shown } from '../words/plainWords.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { LookWorth } from './lotActions.ts';
import { valueOfLooking, type LookQuality } from './valueOfLooking.ts';

/** Plants of one sample, and the time it takes to cut and weigh them (common practice, no source). */
const SAMPLE_PLANTS = 5;
const SAMPLE_H = 0.25;
/** Error of a lot's mean mass told by a scan, spread of the logarithm: that of a scan without weighed plants of its own would be wider. */
const SCAN_LOG_SD = 0.15;

export interface LookQuestion {
  readonly lot: LotExpectation;
  readonly file: GreenhouseFile;
  /** Gain of each candidate in each future, doing nothing first. */
  readonly gains: readonly Float64Array[];
  readonly scores: Float64Array;
  readonly ensemble: Omit<LookQuality, 'errorLogSd'>;
}

/** What a sample and a scan would be worth before deciding; both in the morning, the decision the same day. */
export function looksAtLot({ lot, file, gains, scores, ensemble }: LookQuestion): LookWorth[] {
  const { view, forecast } = lot;
  const { card } = view;
  const spread = Math.hypot(forecast!.basis.plantLogSd, growthOfCard(card).dryMatter.plantLogSd);
  const price = card.soldBy === 'kg' ? (card.sowing.pricePerUnit * card.harvest.readyFreshG) / 1000 : card.sowing.pricePerUnit / card.plantsPerUnit;
  const station = file.stations.find(({ kind }) => kind === 'imaging');
  const basins = view.basins.length;
  const { wagePerHour } = file.sowing;
  const sample = { look: 'sample' as const, title: `Cut and weigh ${SAMPLE_PLANTS} plants`, errorLogSd: Math.hypot(spread / Math.sqrt(SAMPLE_PLANTS), DEFAULT_GROWTH_PRIOR.sampleLogSd), cost: SAMPLE_PLANTS * price + SAMPLE_H * wagePerHour };
  const scan = station === undefined ? [] : [{ look: 'scan' as const, title: `Image ${countOf(basins, 'basin')}`, errorLogSd: SCAN_LOG_SD, cost: ((basins * station.service.fixedS * station.crew) / 3600) * wagePerHour }];
  return [sample, ...scan].map(({ look, title, errorLogSd, cost }) => {
    const { worth, chanceItChanges } = valueOfLooking(gains, scores, { ...ensemble, errorLogSd });
    const figures = { lot: view.lot, look, title, worth: round(worth), cost: round(cost), chanceItChanges: round(chanceItChanges) };
    return { ...figures, sentence: lookWords(figures, file.prices.currency) };
  });
}

const round = (value: number): number => Number(value.toFixed(2));

function lookWords({ title, lot, worth, cost, chanceItChanges }: Omit<LookWorth, 'sentence'>, currency: string): string {
  if (worth === 0) return `${title} of ${lot}: whatever it showed, the decision would stay the same.`;
  const net = worth - cost;
  return `${title} of ${lot}: it would change the decision in ${shown(100 * chanceItChanges, 0)} % of cases; knowing is worth ${shown(worth, 2)} ${currency} and costs ${cost === 0 ? 'no paid work' : `${shown(cost, 2)} ${currency}`}${net > 0 ? '' : ', more than it is worth'}.`;
}
