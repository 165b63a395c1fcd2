import { Temporal } from 'temporal-polyfill';
import { z } from 'zod';

/** What every number in a file says about itself. Types, checks, JSON Schema, the docs page and forms come from this one place. */
export interface QuantityMeaning {
  /** UCUM code; '1' for a plain number or share. */
  readonly unit: string;
  readonly min: number;
  readonly max: number;
  readonly default?: number;
  readonly meaning: string;
  /** Author, year, table or equation; or "common practice, no source"; or "from memory, unverified". */
  readonly source?: string;
}

/** A finite number with unit, range and meaning; required unless a default is given. */
export function quantity(is: QuantityMeaning) {
  return z.number().min(is.min).max(is.max).meta(describe(is));
}

/** As quantity, but filled in with its default where the file is silent. */
export function quantityOr(is: QuantityMeaning & { readonly default: number }) {
  return z.number().min(is.min).max(is.max).default(is.default).meta(describe(is));
}

/** A whole number of things. */
export function count(is: Omit<QuantityMeaning, 'unit'>) {
  return z.number().int().min(is.min).max(is.max).meta(describe({ ...is, unit: '1' }));
}

export function countOr(is: Omit<QuantityMeaning, 'unit'> & { readonly default: number }) {
  return z.number().int().min(is.min).max(is.max).default(is.default).meta(describe({ ...is, unit: '1' }));
}

/** A low and a high bound, low first. */
export function band(is: Omit<QuantityMeaning, 'default'>) {
  const bound = z.number().min(is.min).max(is.max);
  return z.tuple([bound, bound])
    .refine(([low, high]) => low <= high, { message: 'the low bound comes first' })
    .meta(describe(is));
}

function describe(is: QuantityMeaning) {
  return { description: is.meaning, unit: is.unit, ...(is.source === undefined ? {} : { source: is.source }) };
}

/** An id that may stand in file names, topics and labels. */
export const identifier = z.string().regex(/^[A-Za-z0-9][A-Za-z0-9_.-]{0,47}$/, { message: 'letters, digits, - _ . only, at most 48, starting with a letter or digit' })
  .meta({ description: 'Identity: letters, digits, - _ . ; at most 48 characters' });

/** Text for people: one line, at most `max` characters, nothing that cannot be printed or stored. */
export const words = (description: string, max = 200) => z.string().min(1).max(max)
  .refine((text) => !/\p{Cc}|\p{Surrogate}/u.test(text), { message: 'one line of printable text' })
  .meta({ description });

/** A time zone by its name in the IANA time zone database. */
export const timeZoneName = z.string().max(60).refine(isTimeZone, { message: 'an IANA time zone name, for example Europe/Oslo' })
  .meta({ description: 'IANA time zone name, for example Europe/Oslo' });

function isTimeZone(name: string): boolean {
  if (!/^[A-Za-z]/.test(name)) return false;
  try {
    Temporal.PlainDateTime.from('2025-01-15T12:00').toZonedDateTime(name);
    return true;
  } catch {
    return false;
  }
}

/** Time of day as HH:MM in the greenhouse's own time zone. */
export const clockTime = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, { message: 'HH:MM, 00:00 to 23:59' })
  .meta({ description: 'Time of day HH:MM in the greenhouse time zone' });

/** A calendar date as YYYY-MM-DD. */
export const calendarDate = z.iso.date().meta({ description: 'Calendar date YYYY-MM-DD in the greenhouse time zone' });

/** An instant as ISO 8601 with offset or Z. */
export const instant = z.iso.datetime({ offset: true }).meta({ description: 'Instant, ISO 8601 with Z or an offset' });
