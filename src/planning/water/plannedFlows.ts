import { scaleComposition } from '../../science/chemistry/composition.ts';
import type { ApprovedVisit } from '../../greenhouse/events.ts';
import type { WaterFlow } from '../../greenhouse/waterBook.ts';
import type { BasinView } from '../needs/basinView.ts';
import { expectedLossL } from '../needs/basinView.ts';
import { uptakeComposition } from './feedLimits.ts';

/** Flows of a day as planned: what its fillings and washes move, and what the crops are expected to take until its end. */
export function plannedFlows(visits: readonly ApprovedVisit[], basins: readonly BasinView[], atMs: number, endMs: number): WaterFlow[] {
  const at = new Date(endMs).toISOString();
  return [...visits.flatMap((visit) => visitFlows(visit, at)), ...basins.flatMap((view): WaterFlow[] => {
    if (view.card === undefined || !view.water.known || view.basin.planting === undefined) return [];
    const litres = expectedLossL(view, atMs, endMs);
    return [{ at, from: `basin:${view.basin.id}`, to: 'crops', litres, mmol: scaleComposition(uptakeComposition(view.card), litres * view.water.solution.uptakeFactor) }];
  })];
}

function visitFlows({ basin, account, stops }: ApprovedVisit, at: string): WaterFlow[] {
  const drained = (litres: number, to: string | undefined): WaterFlow[] => (account === undefined || !(litres > 0) ? [] : [{ at, from: `basin:${basin}`, to: to === undefined ? 'discharge' : `tank:${to}`, litres, mmol: scaleComposition(account.mmol, litres / account.volumeL) }]);
  return stops.flatMap(({ effect }): WaterFlow[] => {
    if (effect.kind === 'washing') return drained(account?.volumeL ?? 0, effect.drainTo);
    if (effect.kind !== 'filling') return [];
    const draws = Object.entries(effect.drawL).map(([source, litres]): WaterFlow => ({ at, from: `tank:${source}`, to: `basin:${basin}`, litres, mmol: effect.drawMmol?.[source] ?? {} }));
    return [...drained(effect.drainL, effect.drainTo), ...draws];
  });
}
