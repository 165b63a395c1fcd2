import type { FastifyInstance } from 'fastify';
import { z } from 'zod';
import type { BasinAnswer, FloorAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';
import { parseOrRefuse, refuse } from '../http/answers.ts';
import { basinView } from '../views/basinView.ts';
import { floorView } from '../views/floorView.ts';

const basinParams = z.strictObject({ id: z.string().min(1).max(48) });

/** The floor to scale, and one basin. */
export function floorRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/floor', (): FloorAnswer => {
    const view = floorView(desk.greenhouse.state(), desk.morning.newest());
    if (view === undefined) throw refuse('value-missing', 'greenhouse.yaml', 'No floor is described yet.');
    return view;
  });

  app.get('/api/basins/:id', async (request): Promise<BasinAnswer> => {
    const { id } = parseOrRefuse(basinParams, request.params, 'address');
    return basinView(desk, id);
  });
}
