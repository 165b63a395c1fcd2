/** Which waters go into which basins: what is asked, and what is answered. Composition keys are free (any ion). */
export interface BlendProblem {
  readonly sources: readonly BlendSource[];
  readonly basins: readonly BlendBasin[];
  /** Cost of each litre that is drained from a basin. */
  readonly dischargeCostPerL: number;
}

export interface BlendSource {
  readonly id: string;
  readonly mmolPerL: Amounts;
  /** For all basins together. */
  readonly availableL: number;
  readonly costPerL: number;
  /** Hard limit for one basin; no answer exceeds it. */
  readonly perBasinMaxL?: number;
  /** Smallest dose that the pump can measure: a basin gets nothing or at least this. */
  readonly minimumDoseL?: number;
  /** Most of a mixture that this and its like may be together, 0 to 1: concentrates go into water. The same for all that have one. */
  readonly dilutedToShare?: number;
}

export interface BlendBasin {
  readonly id: string;
  /** What is in it, before anything is drained or added. */
  readonly volumeL: number;
  readonly mmolPerL: Amounts;
  readonly volumeBandL: readonly [number, number];
  readonly limits: readonly QualityLimit[];
  /** Sources that may not be drawn into this basin. */
  readonly without?: ReadonlySet<string>;
}

export type Amounts = Readonly<Record<string, number>>;

/**
 * low <= constant + sum of weight x concentration <= high, for the mixture. A component's band has the weight 1 on
 * itself; a conductivity surrogate has one weight an ion.
 */
export interface QualityLimit {
  readonly name: string;
  readonly unit: string;
  readonly weights: Amounts;
  readonly constant: number;
  readonly low?: number;
  readonly high?: number;
  /** What the limit has to bear later: the mixture's excess over the limit x its volume must reach this (mmol). */
  readonly lowShift?: number;
  readonly highShift?: number;
  /** What a miss is compared to; the larger of the limits where absent. */
  readonly scale?: number;
  /** How much worse than others it is to miss the limit by the same share; 1 where absent. */
  readonly lowWeight?: number;
  readonly highWeight?: number;
}

export interface BlendAnswer {
  readonly status: 'optimal' | 'infeasible';
  readonly cost: number;
  /** No answer within all limits (where infeasible: none that misses them by as little) is cheaper. */
  readonly lowerBound: number;
  readonly basins: readonly BasinBlend[];
  readonly binding: readonly BindingLimit[];
  readonly violations: readonly Violation[];
}

export interface BasinBlend {
  readonly id: string;
  /** Litres of each source, in the order of the problem's sources; zero where none. */
  readonly drawL: readonly number[];
  readonly drainL: number;
  readonly volumeL: number;
  readonly mmolPerL: Amounts;
  readonly cost: number;
  /** No mix of this basin that takes no more of what is scarce costs less. */
  readonly lowerBound: number;
}

/** A limit that holds the cost up, and what one unit more of it would save. */
export interface BindingLimit {
  /** Absent for the availability of a source. */
  readonly basin?: string;
  readonly limit: string;
  readonly side: 'low' | 'high' | 'available';
  readonly at: number;
  readonly unit: string;
  readonly worthPerUnit: number;
}

export interface Violation {
  readonly basin: string;
  readonly limit: string;
  readonly side: 'low' | 'high';
  readonly allowed: number;
  readonly reached: number;
  readonly unit: string;
}
