import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { normalQuantile, normalShareBelow } from '../../science/crop/normalNumbers.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';

/** Mean fresh mass of a lot on a day: its middle and the spread of its logarithm. */
export interface MassOnDay { readonly date: string; readonly freshG: number; readonly logSd: number }

/** What a plant of a lot gives on a day. */
export interface UnitsOnDay extends MassOnDay {
  /** Units per plant that are there with the chance asked for, and on average. */
  readonly sureUnits: number;
  readonly meanUnits: number;
  /** Chance that the lot was past its best before the days that its crop keeps. */
  readonly overgrownChance: number;
}

/** Scores at which the spread of a lot's mass is summed for the mean: middles of five equal shares. */
const SCORES = Array.from({ length: 5 }, (_, i) => normalQuantile((i + 0.5) / 5));

/** The chance asked for, and the days between two sowings of a crop. */
export interface SowingPromise { readonly serviceLevel: number; readonly sowingEveryDays: number }

/** Neighbouring lots that share a block's risk at most (own choice). */
const MOST_SHARING = 3;

/**
 * Units per plant by day. A line can fail for two causes here, growth and everything else between planting and sale; each may
 * with half of the permitted risk, so that both hold together at least with the chance asked for (Boole's inequality).
 * Growth enters as that quantile of the mean mass: a chance constraint turned into its deterministic equivalent (Charnes &
 * Cooper 1959, Management Science 6:73-79). A day's orders can be cut from any of the lots that are ready then and not past
 * their best; what n of them have in common is in the curve, the rest is taken as independent, so that their joint spread is
 * 1/sqrt(n) of one lot's (risk pooling: Eppen 1979, Management Science 25:498-501). The season test measures what this is worth.
 */
export function unitsAhead(card: CropCard, plantLogSd: number, days: readonly MassOnDay[], { serviceLevel, sowingEveryDays }: SowingPromise): UnitsOnDay[] {
  const z = normalQuantile(1 - (1 - serviceLevel) / 2);
  const { readyFreshG, latestFreshG, lossShare, keepsDays } = card.harvest;
  const plantSd = Math.hypot(plantLogSd, growthOfCard(card).dryMatter.plantLogSd);
  const kept = Math.floor(keepsDays);
  const sharing = Math.min(MOST_SHARING, Math.max(1, (usableDays(card, plantSd, days) + kept) / sowingEveryDays));
  const perPlant = (meanG: number): number => {
    const share = shareAbove(meanG, plantSd, readyFreshG) * (1 - lossShare);
    return card.soldBy === 'kg' ? (share * meanG) / 1000 : share / card.plantsPerUnit;
  };
  return days.map((day, i): UnitsOnDay => {
    const before = days[Math.max(0, i - kept)]!;
    return {
      ...day,
      sureUnits: perPlant(day.freshG * Math.exp((-z * day.logSd) / Math.sqrt(sharing))) * Math.max(0, 1 - (z * card.sowing.saleableSpread) / Math.sqrt(sharing)),
      meanUnits: SCORES.reduce((sum, score) => sum + perPlant(day.freshG * Math.exp(score * day.logSd)) / SCORES.length, 0),
      overgrownChance: 1 - normalShareBelow(Math.log(latestFreshG / before.freshG) / Math.max(1e-6, before.logSd)),
    };
  });
}

/** Days on which the middle of the lot is ready and not past its best. */
function usableDays(card: CropCard, plantSd: number, days: readonly MassOnDay[]): number {
  const { readyFreshG, readyShare, latestFreshG } = card.harvest;
  return days.filter(({ freshG }) => freshG <= latestFreshG && shareAbove(freshG, plantSd, readyFreshG) >= readyShare).length;
}
