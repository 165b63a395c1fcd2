import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';

/** What the next two weeks are expected to ask of stations, crew and vehicles. Plain JSON, minutes rounded. */
export interface WeekView {
  /** Fourteen local dates; the first is the day of the plan and keeps the visits of its plan. */
  readonly dates: readonly string[];
  readonly sentence: string;
  readonly resources: readonly WeekResource[];
  readonly overruns: readonly WeekOverrun[];
  /** In the order of days, then of basins. */
  readonly visits: readonly WeekVisit[];
  /** What the figures assume and leave out. */
  readonly notes: readonly string[];
}

export type ResourceId = StationKind | 'crew' | 'vehicles';

/** Minutes by day: asked for, asked for once the proposed moves are made, and what the shift has. */
export interface WeekResource {
  readonly id: ResourceId;
  readonly title: string;
  readonly loadMin: readonly number[];
  readonly levelledMin: readonly number[];
  readonly capacityMin: readonly number[];
}

export interface WeekOverrun {
  readonly date: string;
  readonly resource: ResourceId;
  readonly loadMin: number;
  readonly capacityMin: number;
  /** Minutes over capacity that stay when the proposed moves are made. */
  readonly staysOverMin: number;
  readonly sentence: string;
}

export interface WeekVisit {
  /** A basin, or the one that plants come from where the basins that take them are not chosen yet. */
  readonly basin: string;
  readonly kinds: readonly StationKind[];
  readonly why: string;
  /** The day on which it is due or, where that has passed, on which it can be made. */
  readonly date: string;
  readonly earliest: string;
  readonly latest: string;
  /** Where levelling would move it; absent where it stays. */
  readonly to?: string;
}
