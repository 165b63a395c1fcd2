import { Temporal } from 'temporal-polyfill';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';

/** The working day that a plan is for, in the greenhouse's own time zone and in UTC. */
export interface ShiftDay {
  /** Local calendar date. */
  readonly date: string;
  readonly timeZone: string;
  readonly atMs: number;
  readonly startMs: number;
  readonly endMs: number;
  /** When orders leave on this date. */
  readonly pickMs: number;
  readonly breaks: readonly { readonly fromMs: number; readonly toMs: number }[];
}

/**
 * The shift to plan for at an instant: today's while it is not over, else tomorrow's. A shift that ends at or before the
 * clock time at which it starts ends on the next day.
 */
export function shiftDay(file: GreenhouseFile, at: string): ShiftDay {
  const timeZone = file.location.timeZone;
  const atMs = Temporal.Instant.from(at).epochMilliseconds;
  const today = localDate(atMs, timeZone);
  const first = shiftOn(file, today, atMs);
  return atMs < first.endMs ? first : shiftOn(file, addDays(today, 1), atMs);
}

function shiftOn(file: GreenhouseFile, date: string, atMs: number): ShiftDay {
  const { location: { timeZone }, shift } = file;
  const startMs = clockMs(date, shift.start, timeZone);
  const after = (clock: string) => { const ms = clockMs(date, clock, timeZone); return ms < startMs ? clockMs(addDays(date, 1), clock, timeZone) : ms; };
  const endMs = shift.end === shift.start ? clockMs(addDays(date, 1), shift.end, timeZone) : after(shift.end);
  return {
    date, timeZone, atMs, startMs, endMs, pickMs: clockMs(date, file.orderPickHour, timeZone),
    breaks: shift.breaks.map(({ from, to }) => ({ fromMs: after(from), toMs: after(to) })),
  };
}

/** UTC milliseconds of a local clock time; a time that summer time skips counts as the one after the jump. */
export function clockMs(date: string, clock: string, timeZone: string): number {
  return Temporal.PlainDateTime.from(`${date}T${clock}`).toZonedDateTime(timeZone).epochMilliseconds;
}

export const localDate = (ms: number, timeZone: string): string =>
  Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone).toPlainDate().toString();

export const localClock = (ms: number, timeZone: string): string =>
  Temporal.Instant.fromEpochMilliseconds(ms).toZonedDateTimeISO(timeZone).toPlainTime().toString({ smallestUnit: 'minute' });

const DAY_MS = 86_400_000;

/** Calendar arithmetic on plain dates. */
export const addDays = (date: string, days: number): string => new Date(Date.parse(`${date}T00:00:00Z`) + days * DAY_MS).toISOString().slice(0, 10);

/** Whole days from one date to another. */
export const daysBetween = (from: string, to: string): number => Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS);

export const toInstant = (ms: number): string => new Date(ms).toISOString();

/** UTC milliseconds of an ISO instant. */
export const instantMs = (at: string): number => Date.parse(at);
