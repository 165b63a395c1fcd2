import { outcomeKey } from '../../greenhouse/evolve.ts';
import type { ApprovedStop, ApprovedVisit, StopEffect } from '../../greenhouse/events.ts';
import type { GreenhouseFile } from '../../greenhouse/schema/greenhouseFile.ts';
import type { GreenhouseState } from '../../greenhouse/state.ts';
import { shiftDay, type ShiftDay } from '../day/shiftDay.ts';

type Outcome = GreenhouseState['outcomes'][string];
type Transplanting = Extract<StopEffect, { kind: 'transplanting' }>;

/** An approved visit of today that goes on as approved. */
export interface CarriedVisit {
  readonly visit: ApprovedVisit;
  readonly remaining: readonly ApprovedStop[];
  readonly done: readonly DoneStop[];
}

export interface DoneStop { readonly stop: ApprovedStop; readonly outcome: Outcome }

export interface StopFailure { readonly visit: ApprovedVisit; readonly stop: ApprovedStop; readonly outcome: Outcome }

/** Plants that were lifted out of their basin today and whose new basin failed. */
export interface HomelessPlants { readonly effect: Transplanting; readonly failedBasin: string }

/** What has become of the plan that was approved for today's shift. */
export interface ShiftSoFar {
  readonly approvedAt: string;
  readonly approvedBy: string;
  readonly carried: readonly CarriedVisit[];
  /** Visits that are over: all stops done, or ended by a failed one. */
  readonly ended: readonly { readonly visit: ApprovedVisit; readonly stops: readonly DoneStop[] }[];
  readonly failures: readonly StopFailure[];
  readonly homeless: readonly HomelessPlants[];
}

/** Reads the outcomes of the approved plan where it is for the shift that is planned; absent where there is none. */
export function readShiftSoFar(state: GreenhouseState, file: GreenhouseFile, day: ShiftDay): ShiftSoFar | undefined {
  const { approved } = state;
  if (approved === undefined || shiftDay(file, approved.at).date !== day.date) return undefined;
  const marked = approved.visits.map((visit) => markStops(visit, approved.planId, state.outcomes));
  const failures = marked.flatMap(({ visit, stops }) => stops.filter(({ outcome }) => outcome.result === 'failed').map(({ stop, outcome }) => ({ visit, stop, outcome })));
  const open = marked.filter((is) => is.remaining.length > 0 && !is.stops.some(({ outcome }) => outcome.result === 'failed'));
  const given = givenUpMoves(marked);
  const carried = open.filter(({ remaining }) => !remaining.some(({ effect }) => effect.kind === 'transplanting' && effect.fromBasin !== undefined && given.has(effect.fromBasin)));
  return {
    approvedAt: approved.at, approvedBy: approved.approvedBy, failures,
    carried: carried.map(({ visit, remaining, stops }) => ({ visit, remaining, done: stops })),
    ended: marked.filter(({ stops }) => stops.length > 0).filter(({ visit }) => !carried.some((is) => is.visit.visit === visit.visit)).map(({ visit, stops }) => ({ visit, stops })),
    homeless: marked.flatMap((is) => homelessOf(is, marked)),
  };
}

interface MarkedVisit { readonly visit: ApprovedVisit; readonly stops: readonly DoneStop[]; readonly remaining: readonly ApprovedStop[] }

function markStops(visit: ApprovedVisit, planId: string, outcomes: GreenhouseState['outcomes']): MarkedVisit {
  const outcomeOf = (stop: ApprovedStop) => outcomes[outcomeKey({ planId, visit: visit.visit, stop: stop.stop })];
  return {
    visit,
    stops: visit.stops.flatMap((stop) => { const outcome = outcomeOf(stop); return outcome === undefined ? [] : [{ stop, outcome }]; }),
    remaining: visit.stops.filter((stop) => outcomeOf(stop) === undefined),
  };
}

const transplantOf = ({ stops }: ApprovedVisit): ApprovedStop | undefined => stops.find(({ effect }) => effect.kind === 'transplanting');

/** Source basins whose plants stay where they are because the source or one of its targets failed before they were lifted. */
function givenUpMoves(marked: readonly MarkedVisit[]): Set<string> {
  const given = new Set<string>();
  const lifted = new Set<string>();
  for (const { visit, stops } of marked) {
    const effect = transplantOf(visit)?.effect;
    if (effect?.kind !== 'transplanting' || effect.fromBasin === undefined) continue;
    const own = stops.find(({ stop }) => stop.effect.kind === 'transplanting');
    if (effect.fromBasin === effect.toBasin && own?.outcome.result === 'done') lifted.add(effect.fromBasin);
    if (stops.some(({ outcome }) => outcome.result === 'failed')) given.add(effect.fromBasin);
  }
  for (const basin of lifted) given.delete(basin);
  return given;
}

/** The plants of a target that failed after its source was emptied. */
function homelessOf({ visit, stops }: MarkedVisit, marked: readonly MarkedVisit[]): HomelessPlants[] {
  const effect = transplantOf(visit)?.effect;
  if (effect?.kind !== 'transplanting' || effect.fromBasin === undefined || effect.fromBasin === effect.toBasin || !stops.some(({ outcome }) => outcome.result === 'failed')) return [];
  if (stops.some(({ stop, outcome }) => stop.effect.kind === 'transplanting' && outcome.result === 'done')) return [];
  const source = marked.find((is) => is.visit.basin === effect.fromBasin);
  const isLifted = source?.stops.some(({ stop, outcome }) => stop.effect.kind === 'transplanting' && outcome.result === 'done') ?? false;
  return isLifted ? [{ effect, failedBasin: visit.basin }] : [];
}
