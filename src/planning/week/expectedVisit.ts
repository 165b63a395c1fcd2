import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';

/** A visit that is expected; days count from the day of the plan, which is 0. */
export interface ExpectedVisit {
  readonly basin: string;
  readonly why: string;
  readonly day: number;
  readonly earliest: number;
  readonly latest: number;
  readonly stops: readonly { readonly kind: StationKind; readonly plants: number; readonly litres: number }[];
}

/** Days that the week view looks at, the day of the plan among them. */
export const WEEK_DAYS = 14;
