import type { FastifyInstance, FastifyRequest } from 'fastify';
import { refuse } from './answers.ts';

const HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'x-frame-options': 'DENY',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy': 'camera=(), microphone=(), geolocation=()',
};

const LOOPBACK = new Set(['localhost', '127.0.0.1', '[::1]']);

/**
 * Answers only requests that name this desk as their host (a foreign page that rebinds its name to this machine does not), takes
 * changes only from its own pages or from programs that send no Origin, and sends the security headers with everything.
 */
export function guardRequests(app: FastifyInstance, host: string): void {
  const open = host === '0.0.0.0' || host === '::';
  app.addHook('onRequest', async (request, reply) => {
    reply.headers(HEADERS);
    if (request.url.startsWith('/api/')) reply.header('cache-control', 'no-store');
    if (!open && !LOOPBACK.has(hostName(request)) && hostName(request) !== host) throw refuse('not-permitted', 'header.host', 'This desk answers only to its own address.');
    if (request.method !== 'GET' && request.method !== 'HEAD' && !comesFromOwnPage(request)) throw refuse('not-permitted', 'header.origin', 'This request comes from a page that is not this desk.');
  });
}

const hostName = (request: FastifyRequest): string => (request.headers.host ?? '').replace(/:\d+$/, '').toLowerCase();

function comesFromOwnPage(request: FastifyRequest): boolean {
  const origin = request.headers.origin;
  return origin === undefined || origin === `http://${request.headers.host}` || origin === `https://${request.headers.host}`;
}
