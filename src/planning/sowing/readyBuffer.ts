import { normalQuantile } from '../../science/crop/normalNumbers.ts';
import type { UnitsOnDay } from './unitsAhead.ts';

/** A lot as the buffer sees it: its units if all of it is cut, and what may become of it day by day from `firstDay` on. */
export interface BufferLot { readonly units: number; readonly firstDay: number; readonly days: readonly UnitsOnDay[]; /** Relative spread of its saleable plants. */ readonly yieldSpread: number }

export interface BufferQuestion {
  readonly lots: readonly BufferLot[];
  /** Last day of the span that the buffer is for. */
  readonly day: number;
  readonly serviceLevel: number;
  /** Standard deviation of what may be ordered beyond what is expected until then. */
  readonly ordersSd: number;
}

/**
 * Units that shall stand ready on a day beyond all that is wanted until then, so that the lots sown so far can serve every
 * order with the chance asked for. What has become ready by then is a sum over lots that are each grown enough with a chance
 * p or not yet: its variance is the sum of units^2 p (1 - p) (Bernoulli), plus that of the saleable plants of the lots that can be
 * cut, plus that of orders; what all lots share (model, weather) moves them together. Independent risks add in squares
 * (risk pooling: Eppen 1979, Management Science 25:498-501), and the chance becomes so many standard deviations (the
 * deterministic equivalent of Charnes & Cooper 1959, Management Science 6:73-79). The normal form is an approximation: the season test measures it.
 */
export function readyBuffer({ lots, day, serviceLevel, ordersSd }: BufferQuestion): number {
  let [variance, shared] = [ordersSd ** 2, 0];
  for (const { units, firstDay, days, yieldSpread } of lots) {
    const on = days[day - firstDay];
    if (on === undefined) continue;
    const { readyChance, readyChanceIfSlow, overgrownChance } = on;
    const open = 1 - overgrownChance;
    variance += open * (units ** 2 * readyChance * (1 - readyChance) + readyChance * (units * yieldSpread) ** 2);
    shared += open * units * (readyChance - readyChanceIfSlow);
  }
  return Math.max(0, normalQuantile(serviceLevel)) * Math.sqrt(variance + shared ** 2);
}

/** Standard normal loss: mean of what a standard normal exceeds z by. */
const normalLoss = (z: number, tail: number): number => Math.exp(-z * z / 2) / Math.sqrt(2 * Math.PI) - z * tail;

/**
 * Chance that a unit more in the buffer averts a unit short, on average between no buffer and the whole: from the normal loss
 * function (Hadley & Whitin 1963, Analysis of Inventory Systems, 4-2).
 */
export function thinShare(serviceLevel: number): number {
  const z = normalQuantile(serviceLevel);
  return z < 0.01 ? 0.5 : (normalLoss(0, 0.5) - normalLoss(z, 1 - serviceLevel)) / z;
}
