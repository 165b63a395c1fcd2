import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { normalQuantile, normalShareBelow } from '../../science/crop/normalNumbers.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';

/** Mean fresh mass of a lot on a day: its middle and the spread of its logarithm. */
export interface MassOnDay { readonly date: string; readonly freshG: number; readonly logSd: number }

/** What a plant of a lot gives on a day. */
export interface UnitsOnDay extends MassOnDay {
  /** Units per plant on average over what the lot may weigh: none of a lot not grown enough, none of one past its best and its keeping. */
  readonly meanUnits: number;
  /** The same, less what the chance asked for takes off: for growth, and for losses between planting and sale. */
  readonly sureUnits: number;
  /** Whether the lots that share the day are grown enough with the chance asked for. */
  readonly isSurelyReady: boolean;
  /** Chance that the lot was past its best before the days that its crop keeps. */
  readonly overgrownChance: number;
}

/** The chance asked for, and the days between two sowings of a crop. */
export interface SowingPromise { readonly serviceLevel: number; readonly sowingEveryDays: number }

/** Scores at which the spread of a lot's mass is summed: middles of equal shares. */
const SCORES = Array.from({ length: 15 }, (_, i) => normalQuantile((i + 0.5) / 15));
/**
 * What lateness leaves uncertain of a day's units beyond the safety time, as a relative standard deviation of one lot: chosen on
 * seeds 101 to 103 of the season test, which is scored on others.
 */
const LATENESS_SPREAD = 0.1;
/** Neighbouring lots that share a day's risk at most (own choice). */
const MOST_SHARING = 3;

/**
 * Units per plant by day. A line can fail because lots are late and because fewer plants than expected can be sold; each may
 * with half of the permitted risk, so that both hold together at least with the chance asked for (Boole's inequality). Each
 * chance is turned into its deterministic equivalent (Charnes & Cooper 1959, Management Science 6:73-79): lateness into a day
 * from which lots may be planned to be cut (a safety time), units into their mean less so many standard deviations. A day's orders can be cut from any
 * of the lots that are ready then and not past their best; what n of them have in common is in the curve, the rest is taken
 * as independent, so that their joint spread is 1/sqrt(n) of one lot's (risk pooling: Eppen 1979, Management Science
 * 25:498-501). The season test (bench/season.ts) measures what the promise is worth.
 */
export function unitsAhead(card: CropCard, plantLogSd: number, days: readonly MassOnDay[], { serviceLevel, sowingEveryDays }: SowingPromise): UnitsOnDay[] {
  const z = normalQuantile(1 - (1 - serviceLevel) / 2);
  const { readyFreshG, readyShare, latestFreshG, lossShare, keepsDays } = card.harvest;
  const plantSd = Math.hypot(plantLogSd, growthOfCard(card).dryMatter.plantLogSd);
  const kept = Math.floor(keepsDays);
  const shareAt = (meanG: number) => shareAbove(meanG, plantSd, readyFreshG);
  const usable = days.filter(({ freshG }) => freshG <= latestFreshG && shareAt(freshG) >= readyShare).length;
  const pooled = z / Math.sqrt(Math.min(MOST_SHARING, Math.max(1, (usable + kept) / sowingEveryDays)));
  const perPlant = (meanG: number): number => {
    const share = shareAt(meanG) * (1 - lossShare);
    return card.soldBy === 'kg' ? (share * meanG) / 1000 : share / card.plantsPerUnit;
  };
  return days.map((day, i): UnitsOnDay => {
    const before = days[Math.max(0, i - kept)]!;
    const meanUnits = SCORES.reduce((sum, score) => sum + (before.freshG * Math.exp(score * before.logSd) > latestFreshG ? 0 : perPlant(day.freshG * Math.exp(score * day.logSd))), 0) / SCORES.length;
    return {
      ...day, meanUnits, sureUnits: meanUnits * Math.max(0, 1 - pooled * Math.hypot(LATENESS_SPREAD, card.sowing.saleableSpread)),
      isSurelyReady: shareAt(day.freshG * Math.exp(-pooled * day.logSd)) >= readyShare,
      overgrownChance: 1 - normalShareBelow(Math.log(latestFreshG / before.freshG) / Math.max(1e-6, before.logSd)),
    };
  });
}
