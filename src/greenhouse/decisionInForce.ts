import type { DecidedAction, GreenhouseState } from './state.ts';

/** The decision that holds for each lot: the last one. */
export function decisionsInForce({ decisions }: GreenhouseState): ReadonlyMap<string, DecidedAction> {
  return new Map(decisions.map((decided) => [decided.lot, decided]));
}
