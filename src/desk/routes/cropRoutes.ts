import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { ACTION_IDS } from '../../greenhouse/actionEvents.ts';
import { identifier } from '../../greenhouse/schema/quantity.ts';
import type { AcceptedAnswer, CropCardAnswer, LotAnswer, LotsAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, RefusedRequest, refuse } from '../http/answers.ts';
import { cardView } from '../views/cardView.ts';
import { lotView, lotsView } from '../views/lotView.ts';
import { demandPerson } from './people.ts';

const lotParams = z.strictObject({ lot: identifier });
const cardParams = z.strictObject({ id: identifier });
const decideBody = z.strictObject({
  planId: z.string().min(1).max(64), action: z.enum(ACTION_IDS), by: z.string().min(1).max(48),
  why: z.string().trim().min(3, { message: 'say in a few words why' }).max(500),
});

/** Lots and what could be done about them, decisions on them, and crop cards. */
export function cropRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/lots', (): LotsAnswer => lotsView(desk));

  app.get('/api/lots/:lot', (request): LotAnswer => lotView(desk, parseOrRefuse(lotParams, request.params, 'address').lot));

  app.post('/api/lots/:lot/decide', async (request): Promise<AcceptedAnswer> => {
    const { lot } = parseOrRefuse(lotParams, request.params, 'address');
    const { planId, action, by, why } = parseOrRefuse(decideBody, request.body, 'body');
    const person = demandPerson(desk.greenhouse.state(), by, 'mayApprove');
    const plan = desk.morning.newest();
    if (plan?.planId !== planId) throw refuse('state-conflict', 'body.planId', 'What could be done was worked out again since. Open the page of the lot again and decide on that.', planId);
    const actions = plan.actions?.lots.find((each) => each.lot === lot);
    const candidate = actions?.candidates.find((each) => each.action === action);
    if (actions === undefined || candidate === undefined) throw refuse('reference-unknown', 'body.action', `The plan does not have ${action} for lot ${lot}.`, action);
    const { title, order, gain, chanceBetter, readyDate, orders } = candidate;
    const outcome = await desk.greenhouse.decideAction({
      lot, crop: actions.crop, action, title, order, by, why, planId, date: plan.date,
      expected: { gain, chanceBetter, ...(readyDate === undefined ? {} : { readyDate }), orders: orders.map((each) => ({ order: each.order, line: each.line, chance: each.chance })) },
    }, desk.nowAt());
    if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
    desk.morning.replan(`${person.name} decided on lot ${lot}: ${title}`);
    return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
  });

  app.get('/api/cards/:id', (request): CropCardAnswer => {
    const { id } = parseOrRefuse(cardParams, request.params, 'address');
    const { crops } = desk.greenhouse.state();
    const card = crops[id];
    if (card === undefined) throw refuse('reference-unknown', 'address.id', `No crop card "${id}" is described.`, id);
    return { ...cardView(card), others: Object.values(crops).map((each) => ({ id: each.id, title: each.title })) };
  });
}
