/** Instants and dates as the greenhouse's own clock shows them. */
const clocks = new Map<string, Intl.DateTimeFormat>();

function clockOf(zone: string): Intl.DateTimeFormat {
  const known = clocks.get(zone) ?? new Intl.DateTimeFormat('en-GB', { timeZone: zone, hour: '2-digit', minute: '2-digit', hourCycle: 'h23' });
  clocks.set(zone, known);
  return known;
}

/** HH:MM of an instant in a time zone; an instant that is not there gives a dash. */
export const clockTime = (at: string | undefined, zone: string): string => (at === undefined || at === '' ? '–' : clockOf(zone).format(new Date(at)));

/** "Tuesday 14 April 2026" from a calendar date. */
export const longDate = (date: string): string => inWords(date, { weekday: 'long', day: 'numeric', month: 'long', year: 'numeric' });

/** "Tue 14 Apr" from a calendar date. */
export const shortDate = (date: string): string => inWords(date, { weekday: 'short', day: 'numeric', month: 'short' });

/** "14 Apr" from a calendar date. */
export const dayMonth = (date: string): string => inWords(date, { day: 'numeric', month: 'short' });

/** "14 Apr, 07:12" of an instant in a time zone. */
export function dateTime(at: string, zone: string): string {
  const date = new Intl.DateTimeFormat('en-GB', { timeZone: zone, day: 'numeric', month: 'short' }).format(new Date(at));
  return `${date}, ${clockTime(at, zone)}`;
}

/** Whole days from one calendar date to another. */
export const daysBetween = (from: string, to: string): number => Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / 86_400_000);

/** "today", "tomorrow", "in 5 days", "3 days ago". */
export function inDays(from: string, to: string): string {
  const days = daysBetween(from, to);
  if (days === 0) return 'today';
  if (days === 1) return 'tomorrow';
  if (days === -1) return 'yesterday';
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
}

function inWords(date: string, options: Intl.DateTimeFormatOptions): string {
  return new Intl.DateTimeFormat('en-GB', { timeZone: 'UTC', ...options }).format(new Date(`${date}T12:00:00Z`)).replace(',', '');
}
