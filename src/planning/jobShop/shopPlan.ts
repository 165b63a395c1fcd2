/** What was decided for a job shop: when each operation runs and when each job is carried. Times in the unit of the problem. */
export interface ShopPlan {
  /** End of the last operation. */
  readonly makespan: number;
  /** No plan ends before. */
  readonly lowerBound: number;
  /** Whether the two meet. */
  readonly proven: boolean;
  readonly operations: readonly PlannedOperation[];
  /** Loaded moves. A vehicle drives empty between them as the matrix says; there is no move where a job stays at its place. */
  readonly moves: readonly PlannedMove[];
}

export interface PlannedOperation {
  readonly job: string;
  /** Position in the job, from 0. */
  readonly index: number;
  readonly at: string;
  readonly start: number;
  readonly end: number;
}

export interface PlannedMove {
  readonly job: string;
  readonly from: string;
  readonly to: string;
  /** From 0. */
  readonly vehicle: number;
  readonly depart: number;
  readonly arrive: number;
}
