import type { StationKind } from '../../greenhouse/schema/greenhouseFile.ts';

export type Urgency = 'must' | 'should' | 'may';

/** Why a basin should see a station; what exactly is done there comes with the kind. */
export interface NeedDraft {
  readonly basin: string;
  readonly kind: StationKind;
  readonly urgency: Urgency;
  readonly reason: string;
  readonly dueDate?: string;
  readonly why: string;
  /** Work has to end by this instant. */
  readonly endByMs?: number;
  /** The basin goes to this berth when its visit is over; absent: back to its own. */
  readonly toBerth?: string;
  readonly move?: TransplantMove;
  readonly harvest?: HarvestChoice;
}

/** Plants of a basin that move on today, and where to. */
export interface TransplantMove {
  readonly lot: string;
  readonly crop: string;
  readonly sown: string;
  readonly stage: string;
  /** Absent: seedlings out of their trays. */
  readonly fromBasin?: string;
  readonly plants: number;
  readonly targets: readonly { readonly basin: string; readonly plants: number; readonly toBerth: string }[];
}

/** A basin that is cut today, and for whom. */
export interface HarvestChoice {
  readonly lot: string;
  readonly plants: number;
  readonly orders: readonly { readonly order: string; readonly line: number; readonly units: number }[];
  readonly freshG: number;
}
