import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { normalQuantile, shuffleInPlace } from '../../science/crop/normalNumbers.ts';
import type { Quantiles } from '../../science/crop/lotForecast.ts';
import { seedFor, startRandom } from '../../science/seededRandom.ts';
import { addDays } from '../day/shiftDay.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';
import type { CutDecision } from './cutDecision.ts';

/** What a lot may yield, member by member of an ensemble of futures. Member -1 is the middle future. */
export interface LotSupply {
  readonly lot: string;
  readonly crop: string;
  readonly sown: string;
  /**
   * Units of the crop card (heads, bunches, kilograms) that could leave on a date, before anything is taken: cut that day, or kept
   * since the lot was cut because its mean plant had passed the weight above which quality falls.
   */
  unitsOn(date: string, member: number): number;
  /** Units of one plant that still stands on that date. */
  unitsPerPlant(date: string, member: number): number;
}

const LEVELS = [0.05, 0.25, 0.5, 0.75, 0.95] as const;
const Z = LEVELS.map(normalQuantile);

/**
 * Supply of a lot in each future. A lot follows one quantile of its forecast all the way (common random numbers: the same
 * lot is good or bad for every order it serves), futures are spread evenly and shuffled by the lot's name.
 */
export function lotSupply({ view, forecast, input }: LotExpectation, seed: number, members: number, decided: CutDecision = {}): LotSupply | undefined {
  if (forecast === undefined || forecast.dates.length === 0) return undefined;
  const { card } = view;
  const zOf = futureScores(view.lot, seed, members);
  const byDate = new Map(forecast.dates.map((day) => [day.date, day] as const));
  const lastDate = forecast.dates.at(-1)!.date;
  const finishes = view.densities.at(-1)!.date;
  const plantLogSd = Math.hypot(forecast.basis.plantLogSd, growthOfCard(card).dryMatter.plantLogSd);
  const perPlant = (date: string, member: number): number => {
    const day = byDate.get(date > lastDate ? lastDate : date);
    if (day === undefined || date < finishes) return 0;
    const meanG = massAt(day.freshG, member < 0 ? 0 : zOf[member]!);
    const share = shareAbove(meanG, plantLogSd, card.harvest.readyFreshG) * (1 - card.harvest.lossShare);
    return card.soldBy === 'kg' ? (share * meanG) / 1000 : share / card.plantsPerUnit;
  };
  const cutFrom = latest(finishes, input.at, decided.holdUntil ?? '');
  const heavyAbove = forecast.dates.filter(({ date }) => date >= cutFrom).map(({ date, freshG }) => ({ date, score: scoreAt(freshG, card.harvest.latestFreshG) }));
  const cutOn = decided.cutOn === undefined ? undefined : latest(decided.cutOn, input.at);
  const cuts = Array.from({ length: members + 1 }, (_, i) => cutAndKept(cutOn ?? heavyAbove.find(({ score }) => (i === 0 ? 0 : zOf[i - 1]!) > score)?.date, card.harvest.keepsDays));
  const unitsOn = (date: string, member: number): number => {
    const { cut, keptUntil } = cuts[member + 1]!;
    return date <= cut ? view.plants * perPlant(date, member) : date <= keptUntil ? view.plants * perPlant(cut, member) : 0;
  };
  return { lot: view.lot, crop: card.id, sown: view.sown, unitsPerPlant: perPlant, unitsOn };
}

const latest = (...dates: readonly string[]): string => dates.reduce((a, b) => (a > b ? a : b));
const NEVER = '9999-12-31';

const cutAndKept = (cut: string | undefined, keepsDays: number): { readonly cut: string; readonly keptUntil: string } =>
  (cut === undefined ? { cut: NEVER, keptUntil: NEVER } : { cut, keptUntil: addDays(cut, Math.floor(keepsDays)) });

/** Which quantile of its forecast a lot follows in each future, as a standard normal score. */
export function futureScores(lot: string, seed: number, members: number): Float64Array {
  const z = Float64Array.from({ length: members }, (_, m) => normalQuantile((m + 0.5) / members));
  shuffleInPlace(z, startRandom(seedFor(seed, `supply ${lot}`)));
  return z;
}

/** Mass at a normal score: straight lines between the forecast's quantiles in ln mass against the score, and beyond them. */
export function massAt(quantiles: Quantiles, z: number): number {
  const logs = [quantiles.p05, quantiles.p25, quantiles.p50, quantiles.p75, quantiles.p95].map(Math.log);
  let i = 0;
  while (i < Z.length - 2 && z > Z[i + 1]!) i++;
  return Math.exp(logs[i]! + ((z - Z[i]!) / (Z[i + 1]! - Z[i]!)) * (logs[i + 1]! - logs[i]!));
}

/** The score above which a lot weighs more than that: the inverse of `massAt`; Infinity where no score does, minus Infinity where every one. */
function scoreAt(quantiles: Quantiles, grams: number): number {
  const logs = [quantiles.p05, quantiles.p25, quantiles.p50, quantiles.p75, quantiles.p95].map(Math.log), wanted = Math.log(grams);
  let i = 0;
  while (i < Z.length - 2 && logs[i + 1]! < wanted) i++;
  const slope = (logs[i + 1]! - logs[i]!) / (Z[i + 1]! - Z[i]!);
  return slope > 0 ? Z[i]! + (wanted - logs[i]!) / slope : logs[i]! > wanted ? -Infinity : Infinity;
}
