import { shiftDay, toInstant } from '../planning/day/shiftDay.ts';
import type { GreenhouseSession } from '../store/session/openSession.ts';

/** Start of the shift to plan for, so that two runs on one day plan for the same instant. */
export function shiftStart(session: GreenhouseSession, nowAt: string): string {
  const file = session.state().file;
  return file === undefined ? nowAt : toInstant(shiftDay(file, nowAt).startMs);
}

/** An instant as people write it, or undefined. */
export function instantOf(text: string): string | undefined {
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d)$/.test(text)) return undefined;
  const ms = Date.parse(text);
  return Number.isNaN(ms) ? undefined : new Date(ms).toISOString();
}
