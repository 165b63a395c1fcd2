import { accepted, refused, type Outcome, type Refusal } from '../science/refusal.ts';
import type { RefusalCode } from '../science/refusalCodes.ts';
import { checkApproval } from './checkApproval.ts';
import { decideAction, type ActionCommand } from './decideAction.ts';
import { decideSowing, type SowingCommand } from './decideSowing.ts';
import { decideScan, type ScanCommand } from './decideScan.ts';
import { correctStop, type CorrectCommand } from './correctStop.ts';
import { outcomeKey } from './evolve.ts';
import type { ApprovedPlan, GreenhouseEventDraft, StopActual } from './events.ts';
import type { Role } from './schema/greenhouseFile.ts';
import type { GreenhouseState } from './state.ts';

const APPROVES: readonly Role[] = ['grower', 'lead'];
const MARKS: readonly Role[] = ['grower', 'lead', 'operator'];

export const mayApprove = (role: Role): boolean => APPROVES.includes(role);
export const mayMark = (role: Role): boolean => MARKS.includes(role);

/** What people decide at the desk, and what the work on scans comes to. */
export type Command =
  | ScanCommand
  | ActionCommand
  | SowingCommand
  | CorrectCommand
  | { readonly do: 'approve-plan'; readonly plan: ApprovedPlan }
  | { readonly do: 'mark-stop'; readonly planId: string; readonly visit: string; readonly stop: number; readonly by: string; readonly result: 'done'; readonly actual?: StopActual }
  | { readonly do: 'mark-stop'; readonly planId: string; readonly visit: string; readonly stop: number; readonly by: string; readonly result: 'failed'; readonly reason: string };

/**
 * Turns a command into the events that it means, or into every reason why it cannot be. Pure: `nowAt` is the UTC instant at
 * which the person acted.
 */
export function decide(state: GreenhouseState, command: Command, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  switch (command.do) {
    case 'approve-plan': return approvePlan(state, command.plan, nowAt);
    case 'mark-stop': return markStop(state, command, nowAt);
    case 'correct-stop': return correctStop(state, command, personMay(state, command.by, MARKS, 'correct marks'));
    case 'decide-action': return decideAction(state, command, nowAt);
    case 'record-sowing': case 'withdraw-sowing': return decideSowing(state, command, nowAt);
    default: return decideScan(state, command, nowAt);
  }
}

function approvePlan(state: GreenhouseState, plan: ApprovedPlan, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  const wrong = personMay(state, plan.approvedBy, APPROVES, 'approve a plan');
  if (plan.upToSequence < state.floorSequence || plan.upToSequence > state.sequence) {
    wrong.push(conflict('plan.upToSequence', `The plan was computed from the journal up to entry ${plan.upToSequence}; entry ${state.floorSequence} has changed what it stands on. Look at the new plan and approve that one.`, plan.upToSequence, state.floorSequence));
  }
  if (state.approved?.planId === plan.planId) wrong.push(conflict('plan.planId', `Plan ${plan.planId} is approved already, by ${state.approved.approvedBy}.`, plan.planId));
  wrong.push(...checkApproval(state, plan));
  if (wrong.length > 0) return refused(wrong);
  return accepted([{ kind: 'plan-approved', happenedAt: nowAt, recordedBy: plan.approvedBy, identity: `plan-approved:${plan.planId}`, body: { plan } }]);
}

function markStop(state: GreenhouseState, command: Extract<Command, { do: 'mark-stop' }>, nowAt: string): Outcome<GreenhouseEventDraft[]> {
  const wrong = personMay(state, command.by, MARKS, 'mark stops');
  const { planId, visit: visitId, stop, by } = command;
  const visit = state.approved?.planId === planId ? state.approved.visits.find((each) => each.visit === visitId) : undefined;
  if (state.approved?.planId !== planId) wrong.push(conflict('planId', `Plan ${planId} is not the approved one${state.approved === undefined ? '; no plan is approved yet' : ` (${state.approved.planId} is)`}.`, planId));
  else if (visit === undefined) wrong.push(reference('visit', `The approved plan has no visit ${visitId}.`, visitId));
  else if (!visit.stops.some((each) => each.stop === stop)) wrong.push(reference('stop', `Visit ${visitId} has no stop ${stop}.`, stop));
  else {
    const before = visit.stops.filter((each) => each.stop < stop && state.outcomes[outcomeKey({ planId, visit: visitId, stop: each.stop })]?.result !== 'done');
    if (before.length > 0 && command.result === 'done') wrong.push(conflict('stop', `Stop ${before[0]!.stop} of visit ${visitId} comes before it and is not marked done.`, stop, before[0]!.stop));
    const already = state.outcomes[outcomeKey(command)];
    if (already !== undefined) wrong.push(conflict('stop', `Stop ${stop} of visit ${visitId} is marked ${already.result} already, by ${already.by}.`, stop));
  }
  if (wrong.length > 0) return refused(wrong);
  const body = { planId, visit: visitId, stop, by };
  const reopenedBy = state.reopened?.[outcomeKey(body)];
  const shared = { happenedAt: nowAt, recordedBy: by, identity: `stop:${outcomeKey(body)}${reopenedBy === undefined ? '' : `:${reopenedBy}`}` };
  if (command.result === 'failed') return accepted([{ kind: 'stop-failed', body: { ...body, reason: command.reason }, ...shared }]);
  return accepted([{ kind: 'stop-done', body: { ...body, ...(command.actual === undefined ? {} : { actual: command.actual }) }, ...shared }]);
}

function personMay(state: GreenhouseState, id: string, roles: readonly Role[], what: string): Refusal[] {
  const person = state.file?.people.find((each) => each.id === id);
  if (person === undefined) return [reference('by', `greenhouse.yaml names no person '${id}'.`, id)];
  if (roles.includes(person.role)) return [];
  return [{ code: 'not-permitted', severity: 'error', path: 'by', value: id, limit: roles.join(', '), message: `${person.name} has the role ${person.role}; to ${what} takes one of: ${roles.join(', ')}.` }];
}

const refusal = (code: RefusalCode) => (path: string, message: string, value: unknown, limit?: unknown): Refusal => ({ code, severity: 'error', path, value, message, ...(limit === undefined ? {} : { limit }) });
const conflict = refusal('state-conflict');
const reference = refusal('reference-unknown');
