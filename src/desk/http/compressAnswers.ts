import { Readable } from 'node:stream';
import { createGzip, gzipSync } from 'node:zlib';
import type { FastifyInstance } from 'fastify';

const WORDS = /json|javascript|text\/|svg/;
const SMALLEST_B = 1400;

/** Answers that are words go out gzipped where the browser takes it: a phone on the floor has a thin connection. */
export function compressAnswers(app: FastifyInstance): void {
  app.addHook('onSend', async (request, reply, payload) => {
    const type = String(reply.getHeader('content-type') ?? '');
    if (!WORDS.test(type) || !/\bgzip\b/.test(request.headers['accept-encoding'] ?? '') || reply.getHeader('content-encoding')) return payload;
    if (payload instanceof Readable) return pack(payload.pipe(createGzip()));
    if (typeof payload === 'string' && payload.length > SMALLEST_B) return pack(gzipSync(payload, { level: 5 }));
    return payload;

    function pack<T>(packed: T): T {
      reply.removeHeader('content-length');
      reply.header('content-encoding', 'gzip').header('vary', 'accept-encoding');
      return packed;
    }
  });
}
