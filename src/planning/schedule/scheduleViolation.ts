/** One broken rule, in words, with what it concerns so that the desk can point at it. */
export interface ScheduleViolation {
  readonly visit?: string;
  readonly vehicle?: string;
  readonly station?: string;
  readonly atS?: number;
  readonly sentence: string;
}
