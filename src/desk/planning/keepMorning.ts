import type { MorningPlan } from '../../planning/morningPlan.ts';
import type { PlanningStatus, PlanProposal } from '../contract.ts';
import type { LiveFeed } from '../http/liveFeed.ts';
import { FailedWorld } from '../http/answers.ts';
import type { OpenGreenhouse, PlanMaker } from '../openGreenhouse.ts';
import { compareSheets } from './compareSheets.ts';
import { restoreApproved } from './restoreApproved.ts';
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
  readonly inForce: () => { readonly plan: MorningPlan; readonly approvedBy: string; readonly approvedAt: string } | undefined;
  readonly proposal: () => PlanProposal | undefined;
  /** Asks for a new plan; while one is being computed the next one waits and later reasons join it. */
  readonly replan: (because: string) => void;
  /** Takes the proposal as the plan in force, once the journal has it. */
  readonly takeInForce: (plan: MorningPlan, approvedBy: string, approvedAt: string) => void;
  /** Resolves when no planning is under way. */
  readonly settled: () => Promise<void>;
}

/** Starts with the approved plan of today, if there is one, and computes the newest. */
export function keepMorning(parts: MorningParts): Morning {
  let status: PlanningStatus = { phase: 'planning', step: 'waiting to start', share: 0, startedAt: parts.nowAt() };
  let newest: { readonly plan: MorningPlan; readonly madeAt: string; readonly because: string } | undefined;
  let inForce: ReturnType<Morning['inForce']>;
  let waiting: string[] = [];
  let running: Promise<void> | undefined;

  return {
    status: () => status,
    newest: () => newest?.plan ?? inForce?.plan,
    inForce: () => inForce,
    proposal,
    replan(because) {
      waiting = [...waiting.filter((is) => is !== because), because];
      start();
    },
    takeInForce(plan, approvedBy, approvedAt) {
      inForce = { plan, approvedBy, approvedAt };
      parts.live.push('approved', { planId: plan.planId, by: approvedBy });
    },
    settled: () => running ?? Promise.resolve(),
  };

  function start(): void {
    running ??= work().finally(() => {
      running = undefined;
      if (waiting.length > 0) start();
    });
  }

  function proposal(): PlanProposal | undefined {
    if (newest === undefined || newest.plan.planId === inForce?.plan.planId) return undefined;
    const sheet = sheetOf(newest.plan);
    const changes = inForce && compareSheets(sheetOf(inForce.plan), outcomesOf(parts.greenhouse.state(), inForce.plan.planId), sheet);
    return { sheet, madeAt: newest.madeAt, because: newest.because, ...(changes ? { changes } : {}) };
  }

  async function work(): Promise<void> {
    inForce ??= await restore();
    while (waiting.length > 0) {
      const because = waiting.join('; ');
      waiting = [];
      await computeOne(because);
    }
  }

  async function computeOne(because: string): Promise<void> {
    const startedAt = parts.nowAt();
    const begun = performance.now();
    show({ phase: 'planning', step: 'reading the greenhouse', share: 0, startedAt });
    try {
      const outcome = await parts.maker.make({ at: startedAt }, (step, share) => show({ phase: 'planning', step, share, startedAt }));
      if (outcome.ok) newest = { plan: outcome.value, madeAt: startedAt, because };
      show(outcome.ok ? { phase: 'ready', tookMs: Math.round(performance.now() - begun) } : { phase: 'refused', refusals: outcome.refusals });
    } catch (error) {
      parts.report(error);
      show({ phase: 'failed', fault: error instanceof FailedWorld ? error.answer : { fault: 'planning', message: 'Planning broke off. The plan shown is the last good one; the log of the desk says more.', retryHelps: true } });
    }
  }

  async function restore() {
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
