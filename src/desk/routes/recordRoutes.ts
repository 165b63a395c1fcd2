import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { JournalAnswer, OrdersAnswer, SourceAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, refuse } from '../http/answers.ts';
import { orderFixes } from '../views/lotView.ts';
import { journalLine } from '../views/journalLine.ts';

const sourceParams = z.strictObject({ id: z.string().min(1).max(200) });
const journalQuery = z.strictObject({
  before: z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER).optional(),
  count: z.coerce.number().int().min(1).max(500).default(50),
});

/** Orders, the source of a figure, and the end of the journal. */
export function recordRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/orders', (): OrdersAnswer => {
    const plan = desk.morning.newest();
    const crops = Object.values(desk.greenhouse.state().crops);
    return { date: plan?.date ?? desk.nowAt().slice(0, 10), cropTitles: Object.fromEntries(crops.map((card) => [card.id, card.title])), orders: plan?.orders ?? [], fixes: orderFixes(plan, desk.greenhouse.state().file?.prices.currency ?? '') };
  });

  app.get('/api/sources/:id', (request): SourceAnswer => {
    const { id } = parseOrRefuse(sourceParams, request.params, 'address');
    const source = desk.morning.newest()?.sources[id] ?? desk.morning.inForce()?.plan.sources[id];
    if (source === undefined) throw refuse('reference-unknown', 'address.id', 'The plan has been computed again since; open the page again.', id);
    return { id, source };
  });

  app.get('/api/journal', async (request): Promise<JournalAnswer> => {
    const { before, count } = parseOrRefuse(journalQuery, request.query, 'query');
    const [events, chain] = await Promise.all([desk.greenhouse.events(before, count), desk.greenhouse.checkChain()]);
    return { chain, total: desk.greenhouse.state().sequence, lines: events.map(journalLine).reverse() };
  });
}
