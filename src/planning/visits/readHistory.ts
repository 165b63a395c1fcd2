import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { PlannedVisit } from '../morningPlan.ts';
import { readDoneStop } from './readVisits.ts';
import type { ShiftSoFar } from './shiftSoFar.ts';

/** Visits of today that are over, for the page and the record: as approved, with what became of each stop. */
export function readHistory(soFar: ShiftSoFar, state: GreenhouseState): PlannedVisit[] {
  return soFar.ended.map(({ visit, stops }): PlannedVisit => {
    const lot = visit.stops.flatMap(({ effect }) => ('lot' in effect ? [effect.lot] : []))[0] ?? state.basins[visit.basin]?.planting?.lot;
    const failed = stops.find(({ outcome }) => outcome.result === 'failed');
    return {
      visit: visit.visit, basin: visit.basin, ...(lot === undefined ? {} : { lot }), urgency: 'must',
      what: visit.stops.map(({ kind }) => kind).join(', '), reason: failed === undefined ? 'done' : `failed at ${failed.stop.station}: ${failed.outcome.reason ?? 'no reason given'}`,
      fromBerth: visit.fromBerth, toBerth: visit.toBerth, stops: stops.map(readDoneStop), trips: [],
      leavesBerthAt: visit.stops[0]!.startAt, backAt: stops.at(-1)!.outcome.at, weightKg: 0, approved: visit,
    };
  });
}
