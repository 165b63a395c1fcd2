import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import type { ApprovedStop, ApprovedVisit, EventBodies, GreenhouseEventDraft } from './events.ts';
import { outcomeKey } from './evolve.ts';
import type { GreenhouseState } from './state.ts';

export type CorrectCommand = { readonly do: 'correct-stop' } & EventBodies['stop-corrected'];

/**
 * A stop of the approved plan that was marked wrongly. The correction takes effect at the place and time of the mark, so that what
 * followed stands on the right fact. Refused where something that is marked done came out of it: that is corrected first.
 * `wrong`: what is wrong with the person already.
 */
export function correctStop(state: GreenhouseState, { do: _do, ...body }: CorrectCommand, wrong: readonly Refusal[]): Outcome<GreenhouseEventDraft[]> {
  const visit = state.approved?.planId === body.planId ? state.approved.visits.find((each) => each.visit === body.visit) : undefined;
  const stop = visit?.stops.find((each) => each.stop === body.stop);
  const marked = state.outcomes[outcomeKey(body)];
  if (visit === undefined || stop === undefined || marked === undefined) return refused([...wrong, conflict('stop', `Stop ${body.stop + 1} of visit ${body.visit} is not marked on the approved plan, so there is nothing to correct.`, body.stop)]);
  const refusals = [...wrong];
  if (marked.result === body.now) refusals.push(conflict('now', `Stop ${body.stop + 1} of visit ${body.visit} is marked ${marked.result} already.`, body.now));
  if (body.now !== 'done') refusals.push(...dependents(state, visit, stop));
  if (refusals.length > 0) return refused(refusals);
  return accepted([{ kind: 'stop-corrected', happenedAt: marked.at, recordedBy: body.by, identity: `correct:${marked.event}`, corrects: marked.event, body }]);
}

/** Stops that are marked done and could not have been without this one: later ones of the visit, and basins planted from it. */
function dependents(state: GreenhouseState, visit: ApprovedVisit, { stop, effect }: ApprovedStop): Refusal[] {
  const { planId, visits } = state.approved!;
  const isDone = (of: ApprovedVisit, number: number) => state.outcomes[outcomeKey({ planId, visit: of.visit, stop: number })]?.result === 'done';
  const later = visit.stops.filter((each) => each.stop > stop && isDone(visit, each.stop)).map((each) => conflict('stop', `Stop ${each.stop + 1} of the same visit comes after it and is marked done; correct that one first.`, stop));
  if (effect.kind !== 'transplanting' || effect.fromBasin !== effect.toBasin) return later;
  const planted = visits.filter((other) => other !== visit && other.stops.some((each) => each.effect.kind === 'transplanting' && each.effect.fromBasin === effect.fromBasin && isDone(other, each.stop)));
  return [...later, ...planted.map((other) => conflict('stop', `Basin ${other.basin} was planted from it and is marked done; correct that one first.`, stop))];
}

const conflict = (path: string, message: string, value: unknown): Refusal => ({ code: 'state-conflict', severity: 'error', path, value, message });
