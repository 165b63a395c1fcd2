/** Quantiles of members, and of plants drawn from lots drawn from members. */
import { normalQuantile, normalShareBelow } from './normalNumbers.ts';
import type { Quantiles } from './lotForecast.ts';

/** Plants by which each member's lot is represented: middles of equal shares of a normal distribution. */
const PLANTS = 9;
const PLANT_Z = Float64Array.from({ length: PLANTS }, (_, i) => normalQuantile((i + 0.5) / PLANTS));
const PLANT_SCALE = Math.sqrt(PLANTS / PLANT_Z.reduce((sum, z) => sum + z * z, 0));

/** Quantiles of a sorted array (linear between order statistics; Hyndman & Fan 1996, Am. Stat. 50:361-365, type 5). */
export function quantilesOfSorted(sorted: Float64Array): Quantiles {
  const at = (p: number) => {
    const position = Math.min(sorted.length - 1, Math.max(0, p * sorted.length - 0.5));
    const below = Math.floor(position);
    const above = Math.min(sorted.length - 1, below + 1);
    return sorted[below]! + (position - below) * (sorted[above]! - sorted[below]!);
  };
  return { p05: at(0.05), p25: at(0.25), p50: at(0.5), p75: at(0.75), p95: at(0.95) };
}

export function quantilesOf(values: Float64Array): Quantiles {
  return quantilesOfSorted(Float64Array.from(values).sort());
}

/** Quantiles of single plants, given each member's mean and the spread of ln mass between plants (mean of a lognormal: exp(sd2/2)). */
export function plantQuantilesOf(means: Float64Array, logSd: number): Quantiles {
  const sorted = Float64Array.from(means).sort();
  const byPlant = Array.from(PLANT_Z, (z) => sorted.map((mean) => mean * Math.exp(PLANT_SCALE * z * logSd - logSd * logSd / 2)));
  return quantilesOfSorted(mergeSorted(byPlant));
}

/** One sorted array of several: cheaper than sorting them anew. */
function mergeSorted(runs: readonly Float64Array[]): Float64Array {
  if (runs.length === 1) return runs[0]!;
  const middle = runs.length >> 1;
  const left = mergeSorted(runs.slice(0, middle)), right = mergeSorted(runs.slice(middle));
  const merged = new Float64Array(left.length + right.length);
  for (let i = 0, l = 0, r = 0; i < merged.length; i += 1) {
    if (r === right.length || (l < left.length && left[l]! <= right[r]!)) { merged[i] = left[l]!; l += 1; } else { merged[i] = right[r]!; r += 1; }
  }
  return merged;
}

/** Share of plants above a mass, given one lot's mean and the spread of ln mass between plants. */
export function shareAbove(meanG: number, logSd: number, limitG: number): number {
  const logMedian = Math.log(meanG) - logSd * logSd / 2;
  return 1 - normalShareBelow((Math.log(limitG) - logMedian) / logSd);
}
