/** The demo's place and its days: everything is counted in days from a first date, in UTC (winter time of the place). */
export const LATITUDE_DEG = 54.55;
export const HISTORY_DAYS = 21;

const DAY_MS = 86_400_000;

export const parseDate = (date: string): number => Date.UTC(Number(date.slice(0, 4)), Number(date.slice(5, 7)) - 1, Number(date.slice(8, 10)));

/** The calendar date that lies `days` after `date`. */
export const addDays = (date: string, days: number): string => new Date(parseDate(date) + days * DAY_MS).toISOString().slice(0, 10);

/** UTC instant of an hour of a date, without fractions of a second. */
export const instantAt = (date: string, hours: number): string => `${new Date(parseDate(date) + Math.round(hours * 3600) * 1000).toISOString().slice(0, 19)}Z`;

/** 0 is Sunday. */
export const weekdayOf = (date: string): number => new Date(parseDate(date)).getUTCDay();

export const daysInYear = (year: number): number => (Date.UTC(year + 1, 0, 1) - Date.UTC(year, 0, 1)) / DAY_MS;

/** Days from 1970-01-01: a running day number for rhythms. */
export const dayNumber = (date: string): number => Math.round(parseDate(date) / DAY_MS);

/** Hour of the year of the first hour of a date, in a year of another number; 29 February counts as 28 February. */
export function hourOfYear(date: string, year: number): number {
  const month = Number(date.slice(5, 7)) - 1;
  const day = month === 1 ? Math.min(28, Number(date.slice(8, 10))) : Number(date.slice(8, 10));
  return ((Date.UTC(year, month, day) - Date.UTC(year, 0, 1)) / DAY_MS) * 24;
}
