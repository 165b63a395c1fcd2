import fastify, { LogController, type FastifyBaseLogger, type FastifyInstance } from 'fastify';
import type { DeskParts } from './deskParts.ts';
import { answerErrors } from './http/answerErrors.ts';
import { compressAnswers } from './http/compressAnswers.ts';
import { guardRequests } from './http/guardRequests.ts';
import { hasPages, servePages } from './http/servePages.ts';
import { cropRoutes } from './routes/cropRoutes.ts';
import { editRoutes } from './routes/editRoutes.ts';
import { floorRoutes } from './routes/floorRoutes.ts';
import { imagingRoutes } from './routes/imagingRoutes.ts';
import { liveRoute } from './routes/liveRoute.ts';
import { peopleRoutes } from './routes/people.ts';
import { planRoutes } from './routes/planRoutes.ts';
import { recordRoutes } from './routes/recordRoutes.ts';
import { sowingRoutes } from './routes/sowingRoutes.ts';
import { weekRoutes } from './routes/weekRoutes.ts';
import { stopRoutes } from './routes/stopRoutes.ts';
import { waterRoutes } from './routes/waterRoutes.ts';

const LARGEST_BODY_B = 64 * 1024;

/** The HTTP interface of one open greenhouse, not yet listening. `pagesFolder` holds the built pages. */
export async function buildDesk(desk: DeskParts, options: { readonly host: string; readonly pagesFolder: string; readonly logger: FastifyBaseLogger }): Promise<FastifyInstance> {
  const app = fastify({ loggerInstance: options.logger, bodyLimit: LARGEST_BODY_B, logController: new LogController({ disableRequestLogging: true }), forceCloseConnections: true });
  guardRequests(app, options.host);
  compressAnswers(app);
  answerErrors(app, hasPages(options.pagesFolder));
  for (const routes of [planRoutes, editRoutes, stopRoutes, peopleRoutes, floorRoutes, waterRoutes, sowingRoutes, weekRoutes, imagingRoutes, cropRoutes, recordRoutes, liveRoute]) routes(app, desk);
  await servePages(app, options.pagesFolder);
  return app;
}
