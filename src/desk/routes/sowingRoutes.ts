import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import { calendarDate, identifier } from '../../greenhouse/schema/quantity.ts';
import { sowingRow } from '../../greenhouse/schema/tableRows.ts';
import { addDays } from '../../planning/day/shiftDay.ts';
import type { AcceptedAnswer, SowingAnswer, SowingChangesAnswer, TrayView } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import type { SowingCommand } from '../../greenhouse/decideSowing.ts';
import { parseOrRefuse, RefusedRequest } from '../http/answers.ts';

const orderQuery = z.strictObject({ crop: identifier, units: z.coerce.number().min(0.1).max(1e6), due: calendarDate });
const sownBody = sowingRow.extend({ by: z.string().min(1).max(48) });
const withdrawBody = z.strictObject({ reason: z.string().trim().min(3, { message: 'say in a few words what became of it' }).max(500), by: z.string().min(1).max(48) });
const lotQuery = z.strictObject({ lot: identifier });

/** The sowing plan, what an order more or a lot less would change in it, and what was sown. */
export function sowingRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/sowing', async (): Promise<SowingAnswer> => {
    const plan = await desk.sowing.plan(desk.nowAt());
    const { crops, basins, trays } = desk.greenhouse.state();
    const lots = [...new Set(Object.values(basins).flatMap(({ planting }) => (planting === undefined ? [] : [planting.lot])))].sort();
    const inTrays = Object.values(trays).map((row): TrayView => ({ ...row, cropTitle: crops[row.crop]?.title ?? row.crop, due: addDays(row.sown, Math.round(crops[row.crop]?.sowing.trayDays ?? 0)) }));
    return { plan, trays: inTrays.sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.lot < b.lot ? -1 : 1)), lots, crops: Object.values(crops).map(({ id, title, soldBy }) => ({ id, title, unit: soldBy })) };
  });

  const record = async (command: SowingCommand, because: string): Promise<AcceptedAnswer> => {
    const outcome = await desk.greenhouse.recordSowing(command, desk.nowAt());
    if (!outcome.ok) throw new RefusedRequest(outcome.refusals);
    desk.morning.replan(because);
    return { accepted: true, sequence: desk.greenhouse.state().sequence, warnings: outcome.warnings };
  };

  app.post('/api/sowing/lots', (request): Promise<AcceptedAnswer> => {
    const { by, ...row } = parseOrRefuse(sownBody, request.body, 'body');
    return record({ do: 'record-sowing', row, by }, `lot ${row.lot} was sown`);
  });

  app.post('/api/sowing/lots/:lot/withdraw', (request): Promise<AcceptedAnswer> => {
    const { lot } = parseOrRefuse(lotQuery, request.params, 'address');
    return record({ do: 'withdraw-sowing', lot, ...parseOrRefuse(withdrawBody, request.body, 'body') }, `lot ${lot} left its trays`);
  });

  app.get('/api/sowing/with-order', async (request): Promise<SowingChangesAnswer> =>
    desk.sowing.whatIf(desk.nowAt(), { if: 'order', ...parseOrRefuse(orderQuery, request.query, 'query') }));

  app.get('/api/sowing/without-lot', async (request): Promise<SowingChangesAnswer> =>
    desk.sowing.whatIf(desk.nowAt(), { if: 'lot-fails', ...parseOrRefuse(lotQuery, request.query, 'query') }));
}
