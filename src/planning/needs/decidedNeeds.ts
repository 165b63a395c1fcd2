import type { DecidedAction, GreenhouseState } from '../../greenhouse/state.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import type { NeedDraft } from './needDraft.ts';

/** The decision that holds for each lot. */
export type Decisions = ReadonlyMap<string, DecidedAction>;

/**
 * What people decided and a visit can do: lots discarded are cleared, lots moved to another bay go there past the imaging
 * station, as far as berths are free that today's other moves leave.
 */
export function decidedNeeds(lots: readonly LotExpectation[], state: GreenhouseState, moves: readonly NeedDraft[], decided: Decisions, date: string): NeedDraft[] {
  const taken = new Set([...Object.values(state.basins).map(({ berth }) => berth), ...moves.flatMap(({ move }) => move?.targets.map(({ toBerth }) => toBerth) ?? [])]);
  const free = (state.floor?.berths ?? []).filter(({ id }) => !taken.has(id));
  const emptied = new Set(moves.map(({ basin }) => basin));
  return lots.flatMap(({ view, forecast }): NeedDraft[] => {
    const decision = decided.get(view.lot);
    if (decision === undefined) return [];
    const { order, by, why } = decision;
    if (order.do === 'discard') {
      const freshG = forecast?.dates.find((day) => day.date === date)?.freshG.p50 ?? 0;
      return view.basins.map(({ id, planting }): NeedDraft => ({
        basin: id, kind: 'harvest', urgency: 'must', why: 'decision', harvest: { lot: view.lot, plants: planting!.plants, orders: [], freshG }, reason: `${by} decided to discard ${view.lot}: ${why}`,
      }));
    }
    if (order.do !== 'move') return [];
    return view.basins.filter(({ id, bay }) => bay !== order.bay && !emptied.has(id)).flatMap(({ id }): NeedDraft[] => {
      const place = free.findIndex(({ bay }) => bay === order.bay);
      if (place === -1) return [];
      const [berth] = free.splice(place, 1);
      return [{ basin: id, kind: 'imaging', urgency: 'should', why: 'decision', toBerth: berth!.id, reason: `${by} decided to move ${view.lot} to ${order.bay}: ${why}` }];
    });
  });
}
