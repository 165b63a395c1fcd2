import type { FastifyInstance } from 'fastify';
import type { WeekAnswer } from '../contract.ts';
import type { DeskParts } from '../deskParts.ts';

/** The two weeks ahead, as the newest plan sees them. */
export function weekRoutes(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/week', (): WeekAnswer => {
    const week = desk.morning.newest()?.week;
    return week === undefined ? {} : { week };
  });
}
