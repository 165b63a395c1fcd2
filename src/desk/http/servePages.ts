import { existsSync } from 'node:fs';
import { join } from 'node:path';
import fastifyStatic from '@fastify/static';
import type { FastifyInstance } from 'fastify';

const PAGE_PATHS = ['/floor', '/basin/:id', '/water', '/water/sheets', '/water/recipe', '/orders', '/crop', '/lot/:lot', '/card/:id', '/week', '/wall', '/sowing', '/imaging', '/imaging/:basin', '/record'];

export const hasPages = (pagesFolder: string): boolean => existsSync(join(pagesFolder, 'index.html'));

/** Serves the built pages from a folder; every page address answers with the one document that opens them all. */
export async function servePages(app: FastifyInstance, pagesFolder: string): Promise<void> {
  if (!hasPages(pagesFolder)) {
    app.get('/', (_request, reply) => reply.type('text/plain; charset=utf-8').send('The pages of the desk are not built yet: run "node bin/watermeadow.js" from a built checkout, or "npm start".\n'));
    return;
  }
  await app.register(fastifyStatic, { root: pagesFolder, cacheControl: false, setHeaders: (reply, path) => { reply.header('cache-control', path.includes('/assets/') ? 'public, max-age=31536000, immutable' : 'no-cache'); } });
  for (const path of PAGE_PATHS) app.get(path, (_request, reply) => reply.sendFile('index.html'));
}
