import { decisionsInForce } from '../../greenhouse/decisionInForce.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { LETTUCE_UNDER_GLASS } from '../../science/climate/transpiration.ts';
import { prepareTranspiration } from '../../science/climate/transpirationTable.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import { addDays } from '../day/shiftDay.ts';
import { withLamps } from './laterClimate.ts';

/** Climates with the lamps that were decided for lots that still stand; where two decisions ask for one bay, the brighter holds. */
export function lampsAsDecided(climates: BayClimates, state: GreenhouseState): BayClimates {
  const standing = new Set(Object.values(state.basins).flatMap(({ planting }) => planting?.lot ?? []));
  let lit = climates;
  for (const { lot, order, date } of decisionsInForce(state).values()) {
    const of = order.do === 'light' ? lit.byBay[order.bay] : undefined;
    if (order.do !== 'light' || of?.bay.lamps === undefined || !standing.has(lot) || order.targetDliMolM2 <= of.bay.lamps.targetDliMolM2) continue;
    const { targetDliMolM2, hoursPerDayMax } = order;
    const brighter = withLamps(lit, { ...of.bay, lamps: { ...of.bay.lamps, targetDliMolM2, hoursPerDayMax } }, addDays(date, 1));
    const bay = brighter.byBay[order.bay]!;
    lit = { ...brighter, byBay: { ...brighter.byBay, [order.bay]: { ...bay, transpiration: prepareTranspiration(bay.inside, LETTUCE_UNDER_GLASS) } } };
  }
  return lit;
}
