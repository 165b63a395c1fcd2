const FORM = /^\d{4}-\d{2}-(\d{2})T(?:[01]\d|2[0-3]):\d{2}(?::\d{2}(?:\.\d{1,9})?)?Z$/;

/** Unix milliseconds of a UTC instant written as ISO 8601 with Z; undefined where it is anything else or no day of the calendar. Finer than a millisecond is cut off. */
export function readInstant(text: unknown): number | undefined {
  const day = typeof text === 'string' ? FORM.exec(text)?.[1] : undefined;
  if (day === undefined) return undefined;
  const ms = Date.parse(text as string);
  // Date.parse takes the 30th of February for the 2nd of March.
  return Number.isNaN(ms) || new Date(ms).getUTCDate() !== Number(day) ? undefined : ms;
}

/** UTC instant with milliseconds: the one form in which the store writes a time of its own. */
export const writeInstant = (unixMs: number): string => new Date(unixMs).toISOString();
