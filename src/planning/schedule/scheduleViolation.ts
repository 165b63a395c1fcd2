/** One broken rule, in words, with what it concerns so that the desk can point at it and say it with titles and times. */
export interface ScheduleViolation {
  readonly rule: BrokenRule;
  readonly visit?: string;
  /** Index of the stop within the visit. */
  readonly stop?: number;
  readonly vehicle?: string;
  readonly station?: string;
  readonly atS?: number;
  /** Until when what is in the way lasts, or from when it would be possible, s. */
  readonly untilS?: number;
  /** The limit that is passed: a latest time, s. */
  readonly limitS?: number;
  /** Other visits that are in the way. */
  readonly others?: readonly string[];
  readonly sentence: string;
}

export type BrokenRule =
  /** A trip, stop or visit is missing, double, unknown or does not fit the ones beside it. */
  | 'incomplete'
  | 'not there'
  | 'lifted too early'
  | 'too fast'
  | 'wrong berth'
  | 'back too late'
  | 'wrong station'
  | 'begins too early'
  | 'ends too late'
  | 'closed'
  | 'waits for other work'
  | 'vehicle elsewhere'
  | 'vehicle busy'
  | 'vehicle too far'
  | 'vehicle off duty'
  | 'battery'
  | 'no place'
  | 'no service place'
  | 'crew off duty'
  | 'crew too small'
  | 'berth taken'
  | 'past';
