/** The answer to a ScheduleProblem, with its proof: no schedule of the same visits finishes before `bound.finishS`. */
import type { LocationIndex, ScheduledCharge, ScheduledStop, ScheduledTrip } from './scheduleProblem.ts';

export interface Schedule {
  /** In order of lifting, then vehicle. Frozen trips included. */
  readonly trips: readonly ScheduledTrip[];
  /** In order of start, then station. Frozen stops included. */
  readonly stops: readonly ScheduledStop[];
  readonly charges: readonly ScheduledCharge[];
  /** One for each visit that is made, in the order of the problem. */
  readonly visits: readonly VisitOutcome[];
  readonly leftOut: readonly LeftOutVisit[];
  /** When the last basin of the plan stands on its berth. */
  readonly finishS: number;
  readonly emptyTravelS: number;
  readonly loadedTravelS: number;
  readonly bound: ScheduleBound;
  /** (finishS - bound.finishS) / bound.finishS in percent; 0 for an empty plan. */
  readonly gapPct: number;
}

export interface VisitOutcome {
  readonly visit: string;
  readonly basin: string;
  /** Lifted from its berth. */
  readonly leavesS: number;
  /** Set down on its berth. */
  readonly backS: number;
  readonly endLocation: LocationIndex;
  /** Largest of the lateness of the visit and of its stops; 0 when in time or without a due time. */
  readonly latenessS: number;
}

export interface LeftOutVisit {
  readonly visit: string;
  readonly basin: string;
  readonly must: boolean;
  /** Stops that were made or are under way all the same (re-planning); the basin then goes to its berth if it can. */
  readonly stopsMade: number;
  readonly reason: string;
  readonly cause: LeftOutCause;
}

export type LeftOutCause =
  | 'no time'
  | 'no station'
  | 'no vehicle'
  | 'deadline'
  | 'waits for a visit left out'
  | 'no berth'
  | 'given up';

/** Lower bounds on finishS for the visits that are made, in seconds from the start of the shift. */
export interface ScheduleBound {
  readonly finishS: number;
  /** What binds: 'station fill-1', 'stations of kind fill', 'vehicles', 'visit V7', ... */
  readonly binds: string;
  /** Each bound by name. */
  readonly parts: Readonly<Record<string, number>>;
}
