import type { FastifyInstance } from 'fastify';
import type { DeskParts } from '../deskParts.ts';

/** Server-sent events: what changes while a page is open. */
export function liveRoute(app: FastifyInstance, desk: DeskParts): void {
  app.get('/api/live', (request, reply) => {
    reply.hijack();
    reply.raw.writeHead(200, {
      'content-type': 'text/event-stream; charset=utf-8', 'cache-control': 'no-store', connection: 'keep-alive', 'x-content-type-options': 'nosniff',
    });
    const lastId = request.headers['last-event-id'];
    desk.live.attach(reply.raw, typeof lastId === 'string' ? lastId : undefined);
  });
}
