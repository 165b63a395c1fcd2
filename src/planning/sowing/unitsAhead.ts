import type { CropCard } from '../../greenhouse/schema/cropCard.ts';
import { shareAbove } from '../../science/crop/massQuantiles.ts';
import { normalQuantile, normalShareBelow } from '../../science/crop/normalNumbers.ts';
import { growthOfCard } from '../lots/growthOfCard.ts';

/** Mean fresh mass of a lot on a day: its middle, the spread of its logarithm from lot to lot, and what all lots may be off together. */
export interface MassOnDay { readonly date: string; readonly freshG: number; readonly logSd: number; readonly sharedLogSd: number }

/** What a plant of a lot gives on a day. */
export interface UnitsOnDay {
  readonly date: string;
  /** Units per plant where the lot is grown enough and not past its best. */
  readonly units: number;
  /** Chance that the lot is grown enough, and the same where all lots grow slower by one standard deviation of what they share. */
  readonly readyChance: number;
  readonly readyChanceIfSlow: number;
  /** Chance that the lot was past its best before the days that its crop keeps. */
  readonly overgrownChance: number;
}

/** Scores at which the spread of a lot's mass is summed: middles of equal shares. */
const SCORES = Array.from({ length: 15 }, (_, i) => normalQuantile((i + 0.5) / 15));
const LEAST_LOG_SD = 1e-6;

/** Units per plant by day and the chances that they can be cut then, for masses whose logarithm is normal. */
export function unitsAhead(card: CropCard, plantLogSd: number, days: readonly MassOnDay[]): UnitsOnDay[] {
  const { readyFreshG, readyShare, latestFreshG, lossShare, keepsDays } = card.harvest;
  const plantSd = Math.hypot(plantLogSd, growthOfCard(card).dryMatter.plantLogSd);
  // The mean mass at which the share asked for is above the mass of a ready plant: the inverse of shareAbove.
  const enoughG = readyFreshG * Math.exp(normalQuantile(readyShare) * plantSd + plantSd ** 2 / 2);
  const perPlant = (meanG: number): number => {
    const share = shareAbove(meanG, plantSd, readyFreshG) * (1 - lossShare);
    return card.soldBy === 'kg' ? (share * meanG) / 1000 : share / card.plantsPerUnit;
  };
  const kept = Math.floor(keepsDays);
  return days.map((day, i): UnitsOnDay => {
    const before = days[Math.max(0, i - kept)]!;
    const [own, all] = [Math.max(LEAST_LOG_SD, day.logSd), Math.hypot(LEAST_LOG_SD, before.logSd, before.sharedLogSd)];
    const beyond = Math.log(day.freshG / enoughG);
    const masses = SCORES.map((score) => day.freshG * Math.exp(score * day.logSd)).filter((meanG) => meanG >= enoughG && meanG <= latestFreshG);
    return {
      date: day.date,
      units: masses.length === 0 ? perPlant(Math.min(latestFreshG, Math.max(enoughG, day.freshG))) : masses.reduce((sum, meanG) => sum + perPlant(meanG), 0) / masses.length,
      readyChance: normalShareBelow(beyond / own),
      readyChanceIfSlow: normalShareBelow((beyond - day.sharedLogSd) / own),
      overgrownChance: 1 - normalShareBelow(Math.log(latestFreshG / before.freshG) / all),
    };
  });
}
