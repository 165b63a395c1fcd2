import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { AcceptedAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, RefusedRequest, refuse } from '../http/answers.ts';
import { demandPerson } from './people.ts';

const by = z.string().min(1).max(48);
const markParams = z.strictObject({ planId: z.string().min(1).max(64), visit: z.string().min(1).max(100), stop: z.coerce.number().int().min(0).max(99) });
const actual = z.strictObject({
  volumeL: z.number().min(0).max(100_000).optional(),
  freshKg: z.number().min(0).max(100_000).optional(),
  plants: z.number().int().min(0).max(100_000).optional(),
  note: z.string().min(1).max(500).optional(),
});
const markBody = z.discriminatedUnion('result', [
  z.strictObject({ result: z.literal('done'), by, actual: actual.optional() }),
  z.strictObject({ result: z.literal('failed'), by, reason: z.string().trim().min(3, { message: 'say in a few words what went wrong' }).max(500) }),
]);

const correctBody = z.strictObject({ by, now: z.enum(['done', 'failed', 'open']), reason: z.string().trim().min(3, { message: 'say in a few words what was wrong' }).max(500) });

/** A person says what happened at a stop, or that it was marked wrongly; the rest of the day is planned again. */
export function stopRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.post('/api/stops/:planId/:visit/:stop', async (request): Promise<AcceptedAnswer> => {
    const params = parseOrRefuse(markParams, request.params, 'address');
    const body = parseOrRefuse(markBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), body.by, 'mayMark');
    const inForce = desk.morning.inForce();
    if (inForce?.plan.planId !== params.planId) throw refuse('state-conflict', 'address.planId', 'Stops are marked on the approved plan, and this is not the approved plan any more. Open the morning page again.', params.planId);
    const outcome = await desk.greenhouse.markStop({ ...params, ...body }, desk.nowAt());
    if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
    desk.live.push('stop', { ...params, result: body.result });
    desk.morning.replan(`${person.name} marked stop ${params.stop + 1} of ${params.visit} ${body.result}`);
    return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
  });

  app.post('/api/stops/:planId/:visit/:stop/correct', async (request): Promise<AcceptedAnswer> => {
    const params = parseOrRefuse(markParams, request.params, 'address');
    const body = parseOrRefuse(correctBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), body.by, 'mayMark');
    const outcome = await desk.greenhouse.correctStop({ ...params, ...body }, desk.nowAt());
    if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
    desk.live.push('stop', { ...params, result: body.now });
    desk.morning.replan(`${person.name} corrected stop ${params.stop + 1} of ${params.visit}`);
    return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
  });
}
