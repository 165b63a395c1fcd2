import type { StopEffect } from '../../greenhouse/events.ts';
import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';
import type { HarvestChoice, NeedDraft, TransplantMove, Urgency } from '../needs/needDraft.ts';
import type { BasinView } from '../needs/basinView.ts';
import type { Feed } from '../water/feed.ts';

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
}

export interface DraftStop {
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
