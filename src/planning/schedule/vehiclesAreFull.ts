/** Whether vehicles are about as busy as the busiest stations, so that a vehicle's time is worth saving before its way. */
import type { DayModel, StationModel } from './dayModel.ts';
import { findVisitPaths } from './visitPaths.ts';

/** Carrying, empty ways left out, takes at least this share of the time that the busiest kind of station works (own choice, between floors at 0.4 and 0.8). */
const FULL_SHARE = 0.6;

const known = new WeakMap<DayModel, boolean>();

/** Worked out once for a model. */
export function vehiclesAreFull(model: DayModel): boolean {
  const full = known.get(model) ?? carryingS(model) >= FULL_SHARE * busiestS(model);
  known.set(model, full);
  return full;
}

/** Lifting, carrying and setting down of all visits for each vehicle. */
function carryingS(model: DayModel): number {
  const paths = findVisitPaths(model);
  const loadedS = paths.loadedS.reduce((sum, seconds) => sum + seconds, 0);
  return (loadedS + model.legCount * (paths.leastPickS + paths.leastDropS)) / Math.max(1, model.vehicleCount);
}

/** Work of the busiest kind of station for each of its places, each stop at its first alternative. */
function busiestS(model: DayModel): number {
  const load = new Map<string, number>();
  for (let t = 0; t < model.legCount; t++) {
    const a = model.altBase[t] as number;
    if (a === model.altBase[t + 1]) continue;
    const { kind } = model.stations[model.altStation[a] as number] as StationModel;
    load.set(kind, (load.get(kind) ?? 0) + (model.altServiceS[a] as number));
  }
  const placesOf = (kind: string): number => model.stations.reduce((sum, s) => sum + (s.kind === kind ? s.places : 0), 0);
  return Math.max(0, ...[...load].map(([kind, seconds]) => seconds / Math.max(1, placesOf(kind))));
}
