import type { StopPin } from '../../greenhouse/events.ts';
import type { LaidDay } from '../../planning/edit/laidDay.ts';
import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { Refusal } from '../../science/refusal.ts';
import type { PlanningStatus, PlanProposal } from '../contract.ts';
import type { LiveFeed } from '../http/liveFeed.ts';
import { FailedWorld } from '../http/answers.ts';
import type { OpenGreenhouse, PlanMaker } from '../openGreenhouse.ts';
import { compareSheets } from './compareSheets.ts';
import { restoreApproved, type PlanOnHand } from './restoreApproved.ts';
import { outcomesOf, sheetOf } from './sheetOf.ts';

export interface MorningParts {
  readonly greenhouse: OpenGreenhouse;
  readonly maker: PlanMaker;
  readonly live: LiveFeed;
  /** The desk's clock: UTC instant, ISO 8601 with Z. */
  readonly nowAt: () => string;
  readonly report: (error: unknown) => void;
}

/** The plans of the day that the desk knows: the newest one computed, and the one that a person approved. */
export interface Morning {
  readonly status: () => PlanningStatus;
  /** The newest plan that was computed; what basins, orders and sources are shown from. */
  readonly newest: () => MorningPlan | undefined;
  readonly inForce: () => PlanOnHand | undefined;
  readonly proposal: () => PlanProposal | undefined;
  /** What an edit of a plan is checked against; undefined where the plan is not at hand or an older program made it. */
  readonly laid: (planId: string) => LaidDay | undefined;
  /** Asks for a new plan; while one is being computed the next one waits and later reasons join it. */
  readonly replan: (because: string) => void;
  /** Asks for a plan around the stops that people want where they put them. Where none is found the last wish is given up, with the reason. */
  readonly keepPins: (pins: readonly StopPin[], because: string) => void;
  /** Stops that people want where they put them, not approved yet. */
  readonly pins: () => readonly StopPin[];
  /** Takes the proposal as the plan in force, once the journal has it. */
  readonly takeInForce: (plan: MorningPlan, approvedBy: string, approvedAt: string) => void;
  /** Resolves when no planning is under way and what is worked out after it is known. */
  readonly settled: () => Promise<void>;
}

/** A wish for a plan. `at`: made for the same instant as the plan that was edited, so that only the edit changes it. */
interface Asked { readonly because: string; readonly at?: string }

interface NewestPlan { readonly plan: MorningPlan; readonly laid: LaidDay; readonly madeAt: string; readonly because: string }

/** Starts with the approved plan of today, if there is one, and computes the newest. */
export function keepMorning(parts: MorningParts): Morning {
  let status: PlanningStatus = { phase: 'planning', step: 'waiting to start', share: 0, startedAt: parts.nowAt() };
  let newest: NewestPlan | undefined;
  let inForce: PlanOnHand | undefined;
  let pins: readonly StopPin[] = [];
  /** The plan that people saw before they moved the first stop. */
  let beforePins: MorningPlan | undefined;
  let waiting: Asked[] = [];
  let running: Promise<void> | undefined;
  /** What is worked out while nobody waits for a plan. */
  let trailing: Promise<void> | undefined;

  return {
    status: () => status,
    newest: () => newest?.plan ?? inForce?.plan,
    inForce: () => inForce,
    proposal,
    laid: (planId) => [newest, inForce].find((each) => each?.plan.planId === planId)?.laid,
    replan: (because) => ask({ because }),
    keepPins(wanted, because) {
      if (pins.length === 0) beforePins = newest?.plan;
      pins = wanted;
      const current = newest !== undefined && newest.plan.upToSequence >= parts.greenhouse.state().floorSequence ? newest.plan : undefined;
      ask({ because, ...(current === undefined ? {} : { at: current.at }) });
    },
    pins: () => pins,
    takeInForce(plan, approvedBy, approvedAt) {
      const laid = newest?.plan.planId === plan.planId ? newest.laid : undefined;
      inForce = { plan, approvedBy, approvedAt, ...(laid === undefined ? {} : { laid }) };
      pins = [];
      beforePins = undefined;
      parts.live.push('approved', { planId: plan.planId, by: approvedBy });
    },
    settled,
  };

  async function settled(): Promise<void> {
    const busy = running ?? trailing;
    if (busy === undefined) return;
    await busy;
    await settled();
  }

  function ask(asked: Asked): void {
    waiting = [...waiting.filter((is) => is.because !== asked.because), asked];
    start();
  }

  function start(): void {
    running ??= work().finally(() => {
      running = undefined;
      if (waiting.length > 0) start();
      else trailing ??= addWorth().finally(() => { trailing = undefined; });
    });
  }

  function proposal(): PlanProposal | undefined {
    if (newest === undefined || newest.plan.planId === inForce?.plan.planId) return undefined;
    const sheet = sheetOf(newest.plan);
    const before = inForce === undefined && newest.plan.pins !== undefined && beforePins !== undefined ? sheetOf(beforePins) : undefined;
    const told = inForce === undefined ? before : sheetOf(inForce.plan);
    const outcomes = inForce === undefined ? {} : outcomesOf(parts.greenhouse.state(), inForce.plan.planId);
    const changes = told && compareSheets(told, outcomes, sheet);
    return { sheet, madeAt: newest.madeAt, because: newest.because, ...(changes ? { changes } : {}), ...(before ? { before } : {}) };
  }

  async function work(): Promise<void> {
    inForce ??= await restore();
    while (waiting.length > 0) {
      const asked = waiting;
      waiting = [];
      await computeOne(asked);
    }
  }

  async function computeOne(asked: readonly Asked[]): Promise<void> {
    const startedAt = parts.nowAt();
    const begun = performance.now();
    const at = asked.every((each) => each.at === asked[0]?.at) ? asked[0]?.at ?? startedAt : startedAt;
    show({ phase: 'planning', step: 'reading the greenhouse', share: 0, startedAt });
    try {
      const outcome = await parts.maker.make({ at, pins }, (step, share) => show({ phase: 'planning', step, share, startedAt }));
      if (outcome.ok) newest = { ...outcome.value, madeAt: startedAt, because: asked.map(({ because }) => because).join('; ') };
      else if (pins.length > 0) giveUpPins(asked, outcome.refusals);
      show(outcome.ok ? { phase: 'ready', tookMs: Math.round(performance.now() - begun) } : { phase: 'refused', refusals: outcome.refusals });
    } catch (error) {
      parts.report(error);
      show({ phase: 'failed', fault: error instanceof FailedWorld ? error.answer : { fault: 'planning', message: 'Planning broke off. The plan shown is the last good one; the log of the desk says more.', retryHelps: true } });
    }
  }

  /** Back to the pins that the plan shown holds; where a plan was wanted for other reasons too, it is made without those that cannot be kept. */
  function giveUpPins(asked: readonly Asked[], refusals: readonly Refusal[]): void {
    const lost = refusals.filter(({ path }) => path.startsWith('pins.'));
    if (lost.length === 0) return;
    const isLost = ({ visit }: StopPin) => lost.some(({ path }) => path === `pins.${visit}`);
    const others = asked.filter(({ at }) => at === undefined);
    if (others.length === 0) { pins = newest?.plan.planId === inForce?.plan.planId ? [] : newest?.plan.pins ?? []; return; }
    pins = pins.filter((pin) => !isLost(pin));
    waiting = [...others.map(({ because }) => ({ because: `${because}; ${lost.map(({ message }) => message).join(' ')}` })), ...waiting];
  }

  /** What one more would be worth, once nobody waits for a plan. */
  async function addWorth(): Promise<void> {
    for (const planId of new Set([newest, inForce].flatMap((each) => (each?.laid === undefined || each.plan.timeline.worth !== undefined ? [] : [each.plan.planId])))) {
      const worth = await parts.maker.worth(planId).catch((error: unknown) => { parts.report(error); return undefined; });
      if (worth === undefined) continue;
      const withWorth = <P extends { readonly plan: MorningPlan }>(on: P | undefined): P | undefined =>
        (on?.plan.planId === planId ? { ...on, plan: { ...on.plan, timeline: { ...on.plan.timeline, worth } } } : on);
      newest = withWorth(newest);
      inForce = withWorth(inForce);
      parts.live.push('plan', { planId });
    }
  }

  async function restore(): Promise<PlanOnHand | undefined> {
    try {
      return await restoreApproved(parts.greenhouse.state(), parts.maker, parts.nowAt());
    } catch (error) {
      parts.report(error);
      return undefined;
    }
  }

  function show(next: PlanningStatus): void {
    status = next;
    if (next.phase === 'planning') parts.live.push('progress', { step: next.step, share: next.share });
    else parts.live.push('plan', newest ? { planId: newest.plan.planId } : {});
  }
}
