import type { DischargeLimits, SourceDescription } from '../../../greenhouse/schema/greenhouseFile.ts';
import type { Composition } from '../../../science/chemistry/composition.ts';
import type { SourceWater } from '../sourceWaters.ts';
import type { ExpectedFeed, FeedWindow } from './expectedFeeds.ts';
import type { ReturnBatch } from './returnBatches.ts';

/** Everything that tells where drained solution should go. */
export interface RoutingQuestion {
  readonly batches: readonly ReturnBatch[];
  readonly tanks: readonly ReturnTank[];
  /** Fresh waters and stocks, which returned solution replaces. */
  readonly others: readonly SourceWater[];
  readonly feeds: readonly ExpectedFeed[];
  /** The strictest crop's maxima. */
  readonly strictest: { readonly sodiumMmolPerL: number; readonly chlorideMmolPerL: number };
  readonly dischargeCostPerL: number;
  readonly discharge: DischargeLimits;
  readonly currency: string;
}

export interface ReturnTank {
  readonly source: SourceDescription;
  /** What is in it after today's draws. */
  readonly heldL: number;
  readonly mmolPerL: Composition;
  /** When its solution may be drawn; none where its treatment does not do. */
  readonly drawnIn: readonly FeedWindow[];
}

/** A tank takes solution only while sodium and chloride of what stays in it are below this share of the strictest crop's maxima (common practice, no source). */
export const SALT_SHARE = 0.8;

/** Batch to the index of its tank; the number of tanks stands for discharge. */
export type BatchPlaces = Map<ReturnBatch, number>;

/** Cost with a batch in each tank, and last with it discharged; Infinity where it cannot go. */
export type RouteCosts = readonly number[];
