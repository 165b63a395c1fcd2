import type { Reading } from '../../greenhouse/journalEvent.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { BayClimates } from '../climate/bayClimates.ts';
import type { LotExpectation } from '../lots/forecastLots.ts';
import { litresBetween } from '../lots/waterUse.ts';
import { estimateSolution } from '../water/estimateSolution.ts';
import { tellsComposition } from '../../greenhouse/tellsComposition.ts';
import { uptakeComposition } from '../water/feedLimits.ts';
import { likelySalts, likelyWater } from '../water/likelyWater.ts';
import type { BasinView } from './basinView.ts';

/** Every basin with its crop card, its lot and an estimate of its water, in the order of their names. */
export function viewBasins(state: GreenhouseState, lots: readonly LotExpectation[], climates: BayClimates, readingsOf: (place: string) => readonly Reading[], atMs: number): BasinView[] {
  const salts = likelySalts(state, atMs);
  const byLot = new Map(lots.map((lot) => [lot.view.lot, lot]));
  return Object.values(state.basins).sort((a, b) => (a.id < b.id ? -1 : 1)).map((basin): BasinView => {
    const lot = basin.planting === undefined ? undefined : byLot.get(basin.planting.lot);
    const card = basin.planting === undefined ? undefined : state.crops[basin.planting.crop];
    const losses = litresBetween(basin, lot, climates);
    const water = estimateSolution({
      basin, readings: readingsOf(`basin:${basin.id}`), analyses: state.analyses.filter((row) => row.place === `basin:${basin.id}` && tellsComposition(row)),
      uptakeMmolPerL: card === undefined ? undefined : uptakeComposition(card), likelyMmolPerL: card === undefined ? undefined : likelyWater(card, salts),
      litresBetween: losses, atMs,
    });
    return { basin, card, lot, water, litresBetween: losses };
  });
}
