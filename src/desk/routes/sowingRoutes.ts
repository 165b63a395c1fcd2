import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { calendarDate, identifier } from '../../greenhouse/schema/quantity.ts';
import type { SowingAnswer, SowingChangesAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse } from '../http/answers.ts';

const orderQuery = z.strictObject({ crop: identifier, units: z.coerce.number().min(0.1).max(1e6), due: calendarDate });
const lotQuery = z.strictObject({ lot: identifier });

/** The sowing plan, and what an order more or a lot less would change in it. Nothing of this is recorded. */
export function sowingRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/sowing', async (): Promise<SowingAnswer> => {
    const plan = await desk.sowing.plan(desk.nowAt());
    const { crops, basins } = desk.greenhouse.state();
    const lots = [...new Set(Object.values(basins).flatMap(({ planting }) => (planting === undefined ? [] : [planting.lot])))].sort();
    return { plan, lots, crops: Object.values(crops).map(({ id, title, soldBy }) => ({ id, title, unit: soldBy })) };
  });

  app.get('/api/sowing/with-order', async (request): Promise<SowingChangesAnswer> =>
    desk.sowing.whatIf(desk.nowAt(), { if: 'order', ...parseOrRefuse(orderQuery, request.query, 'query') }));

  app.get('/api/sowing/without-lot', async (request): Promise<SowingChangesAnswer> =>
    desk.sowing.whatIf(desk.nowAt(), { if: 'lot-fails', ...parseOrRefuse(lotQuery, request.query, 'query') }));
}
