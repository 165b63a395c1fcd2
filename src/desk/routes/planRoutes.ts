import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { AcceptedAnswer, PlanAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, RefusedRequest, refuse } from '../http/answers.ts';
import { outcomesOf, sheetOf } from '../planning/sheetOf.ts';
import { stateTitles } from '../views/stateTitles.ts';
import { demandPerson } from './people.ts';

const replanBody = z.strictObject({ by: z.string().min(1).max(48) });
const approveBody = z.strictObject({ planId: z.string().min(1).max(64), by: z.string().min(1).max(48) });

/** The plan of the day: read it, ask for a new one, approve it. */
export function planRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/plan', (): PlanAnswer => planAnswer(desk));

  app.post('/api/plan/replan', (request, reply) => {
    const body = parseOrRefuse(replanBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), body.by, 'mayMark');
    desk.morning.replan(`${person.name} asked for it`);
    return reply.code(202).send({ accepted: true, sequence: desk.greenhouse.state().sequence, warnings: [] } satisfies AcceptedAnswer);
  });

  app.post('/api/plan/approve', async (request): Promise<AcceptedAnswer> => {
    const body = parseOrRefuse(approveBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), body.by, 'mayApprove');
    return approvePlan(desk, body.planId, person.id);
  });
}

async function approvePlan(desk: DeskParts, planId: string, by: string): Promise<AcceptedAnswer> {
  const plan = desk.morning.newest();
  if (plan === undefined || plan.planId !== planId) throw refuse('state-conflict', 'body.planId', 'This is not the newest plan any more. Look at the newest plan and approve that one.', planId);
  const nowAt = desk.nowAt();
  const approved = { planId, at: plan.at, approvedBy: by, upToSequence: plan.upToSequence, ...(plan.pins === undefined ? {} : { pins: plan.pins }), visits: plan.visits.map((visit) => visit.approved) };
  const outcome = await desk.greenhouse.approve(approved, nowAt);
  if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
  desk.morning.takeInForce(plan, by, nowAt);
  return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
}

function planAnswer(desk: DeskParts): PlanAnswer {
  const state = desk.greenhouse.state();
  const inForce = desk.morning.inForce();
  const proposal = desk.morning.proposal();
  const file = state.file;
  const base = {
    greenhouse: { id: file?.id ?? '', name: file?.name ?? 'No greenhouse described yet', timeZone: file?.location.timeZone ?? 'UTC' },
    titles: stateTitles(state), nowAt: desk.nowAt(), status: desk.morning.status(), ...(proposal ? { proposal } : {}),
  };
  if (inForce === undefined) return base;
  const outcomes = outcomesOf(state, inForce.plan.planId);
  const stops = inForce.plan.visits.flatMap((visit) => visit.stops.map((stop) => `${visit.visit}/${stop.stop}`));
  const openStops = stops.filter((key) => outcomes[key] === undefined).length;
  return { ...base, inForce: { sheet: sheetOf(inForce.plan), approvedBy: inForce.approvedBy, approvedAt: inForce.approvedAt, outcomes, openStops } };
}
