/** What the weight of a part of a lot, harvested, says of its mean plant. */
import type { MeanObservation } from './lotForecast.ts';

export interface PartHarvest {
  readonly date: string;
  readonly plants: number;
  /** Fresh mass of all of them, kg, as weighed. */
  readonly freshKg: number;
  /** Share of the shoot that trimming left on the floor, 0 to 0.5. */
  readonly trimmedShare: number;
  /** Plants of the lot before this harvest. */
  readonly plantsOfLot: number;
  /** Spread of the logarithm of fresh mass between plants of the lot. */
  readonly plantLogSd: number;
}

/** Scales and counting (common practice, no source). */
const SCALES_LOG_SD = 0.02;
/** Harvesters begin with the basins that look best: how far their mean may lie from the lot's, while most of it still stands (common practice, no source). */
const CHOICE_LOG_SD = 0.08;

/** One observation of the mean plant. The error of a choice made by eye is the same at each part harvest of the lot, and gone when all of it is cut. Nothing where nothing was weighed. */
export function observeHarvest(cut: PartHarvest): MeanObservation | undefined {
  if (!(cut.plants > 0 && cut.freshKg > 0 && cut.trimmedShare >= 0 && cut.trimmedShare <= 0.5)) return undefined;
  const left = Math.max(0, 1 - cut.plants / Math.max(cut.plants, cut.plantsOfLot));
  const logSd = Math.hypot(SCALES_LOG_SD, Math.sqrt(left / cut.plants) * cut.plantLogSd);
  return {
    date: cut.date, quantity: 'freshG', mean: 1000 * cut.freshKg / cut.plants / (1 - cut.trimmedShare), relativeSd: Math.sqrt(Math.expm1(logSd ** 2)),
    ...(left > 0 ? { sharedRelativeSd: left * CHOICE_LOG_SD } : {}), instrument: 'harvest', from: `harvest of ${cut.plants} plants`,
  };
}
