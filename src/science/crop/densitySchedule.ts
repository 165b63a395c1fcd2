/** Planting density by day from a list of changes. */
import { dayNumberOf } from './calendar.ts';
import type { DensityStep } from './lotForecast.ts';

/** Plants per m2 of basin on a day: the last entry up to that day, or the first entry before it. At least one entry. */
export function densityOn(steps: readonly DensityStep[]): (day: number) => number {
  const sorted = steps.map((step) => ({ day: dayNumberOf(step.date)!, plantsPerM2: step.plantsPerM2 })).sort((a, b) => a.day - b.day);
  return (day) => (sorted.findLast((step) => step.day <= day) ?? sorted[0]!).plantsPerM2;
}
