/** What a person may decide about a lot that is off target. */

export const ACTION_IDS = ['none', 'more-light', 'most-light', 'brighter-bay', 'cut-early', 'cut-late', 'thin', 'move-apart', 'more-nitrogen', 'other-conductivity', 'discard'] as const;
export type ActionId = (typeof ACTION_IDS)[number];

/** What is to be done, so that later plans can do it. Dates are calendar dates of the greenhouse. */
export type ActionOrder =
  | { readonly do: 'nothing' }
  | { readonly do: 'light'; readonly bay: string; readonly targetDliMolM2: number; readonly hoursPerDayMax: number }
  | { readonly do: 'move'; readonly bay: string }
  /** All of it is cut on this day. */
  | { readonly do: 'cut'; readonly on: string }
  /** It is not cut for its weight before this day. */
  | { readonly do: 'hold'; readonly until: string }
  | { readonly do: 'thin'; readonly plants: number }
  | { readonly do: 'move-apart' }
  | { readonly do: 'feed'; readonly words: string }
  | { readonly do: 'discard' };

/** A middle with the interval that holds the value with 90 % probability. */
export interface ActionInterval { readonly low: number; readonly middle: number; readonly high: number }

/** What was expected when it was decided; the outcome is shown beside it. */
export interface ActionExpectation {
  /** In the greenhouse currency, against doing nothing. */
  readonly gain: ActionInterval;
  readonly chanceBetter: number;
  readonly readyDate?: { readonly early: string; readonly likely: string; readonly late: string };
  readonly orders: readonly { readonly order: string; readonly line: number; readonly chance: number }[];
}

/** A person decided what is done with a lot. A later decision on the same lot replaces an earlier one. */
export interface ActionDecided {
  readonly lot: string;
  readonly crop: string;
  readonly action: ActionId;
  readonly title: string;
  readonly order: ActionOrder;
  readonly by: string;
  /** Why, in the person's own words. */
  readonly why: string;
  /** The plan in which it was proposed, and its date. */
  readonly planId: string;
  readonly date: string;
  readonly expected: ActionExpectation;
}
