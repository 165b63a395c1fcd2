/** What scans of a lot's basins say of its mean plant. */
import type { MeanObservation } from './lotForecast.ts';

/** One basin as a scan saw it. */
export interface BasinScan {
  /** Mean per plant: fresh mass, g, or leaf area, m2, one-sided. */
  readonly mean: number;
  /** Standard error of the logarithm of that mean, what all basins share left out. */
  readonly ownLogSd: number;
  readonly plants: number;
}

export interface LotScans {
  readonly date: string;
  readonly quantity: 'freshG' | 'leafAreaM2';
  readonly basins: readonly BasinScan[];
  /** Basins of the lot, imaged or not. */
  readonly basinsOfLot: number;
  /** Spread of the logarithm of an error that all scans of this crop share: the weight for a volume, the part of the leaves that is hidden. */
  readonly commonLogSd: number;
}

/** Spread of ln mean mass between the basins of a lot: light, draught and age of the solution differ (common practice, no source). */
const BETWEEN_BASINS_LOG_SD = 0.05;
/** A mean is never better known than this, by any instrument (common practice, no source). */
const LEAST_LOG_SD = 0.02;

/**
 * One observation of the lot from the basins imaged on a day: mean weighted by plants; what basins have of their own shrinks with
 * their number, the basins that nobody imaged add to the error (finite population; Cochran 1977, Sampling Techniques, 2.6), and what
 * all scans share is passed on as such, so that ten scans of the same fault do not outvote a pair of scales.
 * Nothing where no basin with a plant and a mean above 0 was imaged.
 */
export function observeScans({ date, quantity, basins, basinsOfLot, commonLogSd }: LotScans): MeanObservation | undefined {
  const seen = basins.filter(({ mean, plants, ownLogSd }) => mean > 0 && plants > 0 && ownLogSd >= 0);
  const plants = seen.reduce((sum, basin) => sum + basin.plants, 0);
  if (plants === 0) return undefined;
  const share = (basin: BasinScan) => basin.plants / plants;
  const own = seen.reduce((sum, basin) => sum + share(basin) ** 2 * basin.ownLogSd ** 2, 0);
  const unseen = Math.max(0, 1 - seen.length / Math.max(basinsOfLot, seen.length));
  const logSd = Math.max(LEAST_LOG_SD, Math.sqrt(own + unseen * BETWEEN_BASINS_LOG_SD ** 2 / seen.length));
  return {
    date, quantity, mean: seen.reduce((sum, basin) => sum + share(basin) * basin.mean, 0), relativeSd: relativeOf(logSd),
    ...(commonLogSd > 0 ? { sharedRelativeSd: relativeOf(commonLogSd) } : {}), instrument: 'scan', from: `scans of ${seen.length} of ${Math.max(basinsOfLot, seen.length)} basins`,
  };
}

/** Relative standard deviation of a lognormal; at most 2, beyond which it says nothing. */
const relativeOf = (logSd: number) => Math.min(2, Math.sqrt(Math.expm1(logSd ** 2)));
