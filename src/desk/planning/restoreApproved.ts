import type { GreenhouseState } from '../../greenhouse/state.ts';
import type { ApprovedVisit } from '../../greenhouse/events.ts';
import type { MorningPlan, PlannedStop, PlannedVisit } from '../../planning/morningPlan.ts';
import type { LaidDay } from '../../planning/edit/laidDay.ts';
import type { PlanMaker } from '../openGreenhouse.ts';

/** The plan in force. `laid` is absent where the program that planned it has changed since. */
export interface PlanOnHand { readonly plan: MorningPlan; readonly laid?: LaidDay; readonly approvedBy: string; readonly approvedAt: string }

/**
 * The approved plan of today after the desk was closed and opened again: computed once more from the same events for the same
 * instant, which gives the same plan bit for bit. Where it does not (the program changed since), the visits that the journal
 * holds as approved replace the computed ones, so that the floor goes on with what a person approved.
 */
export async function restoreApproved(state: GreenhouseState, maker: PlanMaker, nowAt: string): Promise<PlanOnHand | undefined> {
  const approved = state.approved;
  const zone = state.file?.location.timeZone;
  if (approved === undefined || zone === undefined || dateIn(approved.at, zone) !== dateIn(nowAt, zone)) return undefined;
  const outcome = await maker.make({ at: approved.at, upToSequence: approved.upToSequence, ...(approved.pins === undefined ? {} : { pins: approved.pins }) }, () => undefined);
  if (!outcome.ok) return undefined;
  const { plan, laid } = outcome.value;
  const shared = { approvedBy: approved.approvedBy, approvedAt: approved.at };
  return plan.planId === approved.planId ? { plan, laid, ...shared } : { plan: withApprovedVisits(plan, approved), ...shared };
}

function withApprovedVisits(plan: MorningPlan, approved: NonNullable<GreenhouseState['approved']>): MorningPlan {
  const known = new Map(plan.visits.map((visit) => [visit.visit, visit]));
  return { ...plan, planId: approved.planId, visits: approved.visits.map((visit) => ({ ...(known.get(visit.visit) ?? bareVisit(visit)), approved: visit })) };
}

/** A visit of which only what was approved is known. */
function bareVisit(approved: ApprovedVisit): PlannedVisit {
  const stops = approved.stops.map((stop): PlannedStop => ({
    stop: stop.stop, kind: stop.effect.kind, station: stop.station, arriveAt: stop.startAt, startAt: stop.startAt, endAt: stop.endAt,
  }));
  return {
    visit: approved.visit, basin: approved.basin, urgency: 'should', what: stops.map((stop) => stop.kind).join(', '),
    reason: 'Approved earlier today; the program that planned it has changed since.',
    fromBerth: approved.fromBerth, toBerth: approved.toBerth, stops, trips: [],
    leavesBerthAt: stops[0]?.startAt ?? '', backAt: stops.at(-1)?.endAt ?? '', weightKg: 0, approved,
  };
}

/** Calendar date of an instant in a time zone, YYYY-MM-DD. */
export function dateIn(at: string, timeZone: string): string {
  return new Intl.DateTimeFormat('sv-SE', { timeZone, year: 'numeric', month: '2-digit', day: '2-digit' }).format(new Date(at));
}
