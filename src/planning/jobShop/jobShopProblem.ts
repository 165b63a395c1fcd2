/** A day in its barest form, as the scheduling literature states it: jobs that vehicles carry from place to place. One unit of time throughout. */
export interface JobShopProblem {
  /** Alike; each carries one job at a time. 0: a job shop without moves, where a change of place takes no vehicle and no time. */
  readonly vehicles: number;
  /** Each does one operation at a time; jobs wait there without limit before and after it. */
  readonly locations: readonly string[];
  /** `[from][to]`, loaded and empty alike. Need be neither symmetric nor a metric. The diagonal is not read: who stays does not move. */
  readonly travelTime: readonly (readonly number[])[];
  /** Where every job and every vehicle is at time 0. */
  readonly startAt: string;
  readonly jobs: readonly ShopJob[];
  /** Waiting places of a location beside the one at its machine; without limit where it is not named. */
  readonly buffers?: Readonly<Record<string, number>>;
}

export interface ShopJob {
  readonly id: string;
  /** In this order. */
  readonly operations: readonly ShopOperation[];
}

export interface ShopOperation {
  /** One of these is chosen. */
  readonly alternatives: readonly ShopAlternative[];
}

export interface ShopAlternative { readonly at: string; readonly duration: number }
