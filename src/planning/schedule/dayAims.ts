/** What a day is judged by, in order: visits that must be made, other visits, lateness, finish, changes, travel. */
import { BACK_SUM, BERTH_COST, CHANGES, EMPTY, FINISH, WEIGHTED_LATE } from './dayFloor.ts';

export interface DayAims {
  readonly mustLeftOut: number;
  readonly otherLeftOut: number;
  readonly weightedLateS: number;
  readonly finishS: number;
  readonly changes: number;
  readonly travelS: number;
}

export function readAims(totals: Float64Array, dropped: { must: number; other: number }, changeCostS: number): DayAims {
  const changes = totals[CHANGES] as number;
  return {
    mustLeftOut: dropped.must, otherLeftOut: dropped.other,
    weightedLateS: totals[WEIGHTED_LATE] as number,
    // A change of what people were told counts as so many seconds of finish.
    finishS: (totals[FINISH] as number) + changeCostS * changes,
    changes,
    travelS: (totals[EMPTY] as number) + (totals[BERTH_COST] as number),
  };
}

/** Negative when the first is better. */
export function compareAims(a: DayAims, b: DayAims): number {
  return a.mustLeftOut - b.mustLeftOut || a.otherLeftOut - b.otherLeftOut || a.weightedLateS - b.weightedLateS
    || a.finishS - b.finishS || a.travelS - b.travelS;
}

/**
 * One figure in seconds that search climbs on: lateness weighs heavily, and a small weight on travel and on early
 * returns leads it across plateaus of equal finish.
 */
export function energyOf(totals: Float64Array, weights: EnergyWeights): number {
  return (totals[FINISH] as number) + weights.late * (totals[WEIGHTED_LATE] as number) + weights.travel * (totals[EMPTY] as number)
    + weights.travel * (totals[BERTH_COST] as number) + weights.back * (totals[BACK_SUM] as number) + weights.change * (totals[CHANGES] as number);
}

export interface EnergyWeights {
  readonly late: number;
  readonly travel: number;
  readonly back: number;
  readonly change: number;
}
