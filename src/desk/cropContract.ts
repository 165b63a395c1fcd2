/** The part of the contract that is about orders, lots and crop cards; pages read it through contract.ts. */
import type { ActionId } from '../greenhouse/actionEvents.ts';
import type { LookWorth, LotActions } from '../planning/actions/lotActions.ts';
import type { BaySeason, LotOutlook, OrderOutlook } from '../planning/morningPlan.ts';

/** GET /api/orders */
export interface OrdersAnswer {
  readonly date: string;
  readonly cropTitles: Readonly<Record<string, string>>;
  readonly orders: readonly OrderOutlook[];
  /** What would help a line at risk, best first; key: order/line. */
  readonly fixes: Readonly<Record<string, readonly OrderFix[]>>;
}

/** Something that could be done with a lot, as a line at risk sees it. */
export interface OrderFix { readonly lot: string; readonly title: string; readonly chance: number; readonly chanceWithNothingDone: number; readonly meanGain: number; readonly currency: string }

/** GET /api/lots: the crop as a whole. */
export interface LotsAnswer {
  readonly date: string;
  /** What is off target, in one plain sentence; absent without a plan. */
  readonly sentence?: string;
  readonly currency: string;
  readonly lots: readonly LotLine[];
  readonly notWorkedOut: readonly { readonly lot: string; readonly reason: string }[];
  /** What more light in a bay would do for all of its lots off target, in sentences. */
  readonly bayLights: readonly string[];
  readonly looks: readonly LookWorth[];
  readonly season: readonly BaySeason[];
  readonly cards: readonly { readonly id: string; readonly title: string }[];
}

export interface LotLine {
  readonly lot: string;
  readonly crop: string;
  readonly cropTitle: string;
  readonly stageTitle: string;
  readonly plants: number;
  readonly basins: number;
  readonly readyDate?: LotOutlook['readyDate'];
  /** What is best done, in one sentence, where it is off target. */
  readonly offTarget?: string;
  readonly decided?: string;
}

/** GET /api/lots/:lot */
export interface LotAnswer {
  readonly date: string;
  readonly planId?: string;
  readonly currency: string;
  readonly lot: LotOutlook;
  readonly cropTitle: string;
  readonly stageTitle: string;
  readonly readyFreshG: number;
  readonly readyShare: number;
  readonly latestFreshG: number;
  /** Absent where the lot is on target. */
  readonly actions?: LotActions;
  /** Order lines that are expected to be served from it. */
  readonly orders: readonly OrderOutlook[];
  /** Newest first. */
  readonly decisions: readonly DecisionView[];
}

/** What a person decided on a lot, what was expected then, and what has come of it so far. */
export interface DecisionView {
  readonly at: string;
  readonly by: string;
  readonly title: string;
  readonly why: string;
  /** The last one on this lot. */
  readonly holds: boolean;
  readonly expected: readonly string[];
  readonly since: readonly string[];
}

/** POST /api/lots/:lot/decide */
export interface DecideRequest { readonly planId: string; readonly action: ActionId; readonly by: string; readonly why: string }

/** GET /api/cards/:id: a crop card, every value with what it means. */
export interface CropCardAnswer {
  readonly id: string;
  readonly title: string;
  readonly cultivar: string;
  readonly parts: readonly { readonly title: string; readonly rows: readonly CardRow[] }[];
  readonly others: readonly { readonly id: string; readonly title: string }[];
}

export interface CardRow {
  readonly name: string;
  readonly value: string;
  readonly unit: string;
  readonly range: string;
  readonly meaning: string;
  readonly source: string;
}
