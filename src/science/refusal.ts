/** One reason why something that was asked for cannot be. Codes are listed in refusalCodes.ts. */
import type { RefusalCode } from './refusalCodes.ts';

export interface Refusal {
  readonly code: RefusalCode;
  /** Where: a file place ("orders.csv:12:5") or a path into the input ("basins.B07.volumeL"). */
  readonly path: string;
  /** What was found there. Absent when nothing was found. */
  readonly value?: unknown;
  /** What is allowed there, in words or as a number. */
  readonly limit?: unknown;
  /** UCUM code of value and limit. */
  readonly unit?: string;
  /** One plain sentence: what is wrong and how to mend it. */
  readonly message: string;
  readonly severity: 'error' | 'warning';
}

/** Either a value, or every reason why there is none. Never both. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T; readonly warnings: readonly Refusal[] }
  | { readonly ok: false; readonly refusals: readonly Refusal[] };

export const accepted = <T>(value: T, warnings: readonly Refusal[] = []): Outcome<T> => ({ ok: true, value, warnings });
export const refused = (refusals: readonly Refusal[]): Outcome<never> => ({ ok: false, refusals });
