import type { DecidedAction } from '../../greenhouse/state.ts';

/** When people decided that a lot is cut: on a day whatever it weighs, or for its weight not before a day. */
export interface CutDecision { readonly cutOn?: string; readonly holdUntil?: string }

/** What a decision on a lot says about its cutting; nothing where it says something else, or there is none. */
export function cutDecision(decided: DecidedAction | undefined): CutDecision {
  const order = decided?.order;
  return order?.do === 'cut' ? { cutOn: order.on } : order?.do === 'hold' ? { holdUntil: order.until } : {};
}
