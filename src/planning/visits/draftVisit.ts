import type { StopEffect } from '../../greenhouse/events.ts';
import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import type { HarvestChoice, NeedDraft, TransplantMove, Urgency } from '../needs/needDraft.ts';
import type { BasinView } from '../needs/basinView.ts';
import type { Feed } from '../water/feed.ts';
import type { DoneStop } from './shiftSoFar.ts';

/** A round trip that is wanted, before anybody knows when. */
export interface DraftVisit {
  readonly visit: string;
  readonly view: BasinView;
  readonly urgency: Urgency;
  readonly needs: readonly NeedDraft[];
  readonly stops: readonly DraftStop[];
  readonly toBerth: string;
  /** Where the basin stands now: the node of its berth, or of a station when the visit is under way. */
  readonly startNode: string;
  /** Weight of lateness and of being left out. */
  readonly priority: number;
  /** Stops of an approved visit that are done already; the first of `stops` comes after them. */
  readonly done?: readonly DoneStop[];
  /** When and where it was approved to begin: kept as far as possible. */
  readonly told?: {
    readonly stops: readonly { readonly stop: number; readonly station: string; readonly startAt: string; readonly endAt: string }[];
    readonly trips: readonly { readonly leg: number; readonly vehicle: string; readonly pickAt: string; readonly arriveAt: string }[];
  };
}

export interface DraftStop {
  /** Number of the stop within its visit, from 0. */
  readonly number: number;
  readonly kind: StationKind;
  /** Plants handled. */
  readonly plants: number;
  /** Litres drained and filled. */
  readonly litres: number;
  readonly endByMs?: number;
  readonly after?: readonly { readonly visit: string; readonly stop: number }[];
  readonly effect: StopEffect;
  readonly feed?: Feed;
  /** Stations of the kind that failed today: used only where there is no other. */
  readonly avoid: readonly string[];
  readonly move?: TransplantMove;
  readonly harvest?: HarvestChoice;
}
