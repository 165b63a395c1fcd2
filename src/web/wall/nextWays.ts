import type { PlanSheet } from '../../desk/contract.ts';

/** A way of a vehicle that is under way or next: which basin, when it is lifted, where it goes. */
export interface NextWay { readonly basin: string; readonly visit: string; readonly pickAt: string; readonly arriveAt: string; readonly station?: string; readonly berth?: string }

/** The ways of each vehicle that are not over by now, soonest first, at most so many each. */
export function nextWays({ visits, timeline }: PlanSheet, nowAt: string, most: number): readonly { readonly id: string; readonly title: string; readonly ways: readonly NextWay[] }[] {
  return timeline.vehicles.map(({ id, title }) => ({
    id, title,
    ways: visits.flatMap((visit) => {
      const open = visit.stops.filter(({ result }) => result === undefined);
      return visit.trips.flatMap((trip, leg): NextWay[] => {
        if (trip.vehicle !== id || Date.parse(trip.arriveAt) < Date.parse(nowAt)) return [];
        const station = open[leg]?.station;
        return [{ basin: visit.basin, visit: visit.visit, pickAt: trip.pickAt, arriveAt: trip.arriveAt, ...(station === undefined ? { berth: visit.toBerth } : { station }) }];
      });
    }).sort((a, b) => Date.parse(a.pickAt) - Date.parse(b.pickAt)).slice(0, most),
  }));
}
