import type { FastifyError, FastifyInstance, FastifyReply, FastifyRequest } from 'fastify';
import { meaningOf, StoreFault } from '../../store/storeFault.ts';
import type { FaultAnswer, RefusedAnswer } from '../contract.ts';
import { FailedWorld, RefusedRequest } from './answers.ts';

/** Refusals as 422 with the list, faults as 503, bugs as 500 with nothing of the inside shown. `hasPages`: a mistyped page address answers with the pages, which say so. */
export function answerErrors(app: FastifyInstance, hasPages: boolean): void {
  app.setErrorHandler(answerError);
  app.setNotFoundHandler((request, reply) => {
    if (hasPages && request.method === 'GET' && (request.headers.accept ?? '').includes('text/html')) return reply.code(404).sendFile('index.html');
    const refused: RefusedAnswer = { refusals: [{ code: 'reference-unknown', path: request.url, message: `There is nothing at ${request.url}.`, severity: 'error' }] };
    return reply.code(404).send(refused);
  });
}

function answerError(error: FastifyError, request: FastifyRequest, reply: FastifyReply) {
  if (error instanceof RefusedRequest) return reply.code(422).send({ refusals: error.refusals } satisfies RefusedAnswer);
  if (error instanceof FailedWorld) {
    request.log.error({ err: error }, 'fault');
    return reply.code(503).send(error.answer);
  }
  if (error instanceof StoreFault) {
    request.log.error({ err: error }, 'fault of the store');
    return reply.code(503).send({ fault: error.fault, message: meaningOf(error.fault), retryHelps: error.retryHelps } satisfies FaultAnswer);
  }
  const status = error.statusCode ?? 500;
  if (status >= 400 && status < 500) {
    const refused: RefusedAnswer = { refusals: [{ code: 'syntax', path: 'request', message: error.message, severity: 'error' }] };
    return reply.code(status === 400 ? 422 : status).send(refused);
  }
  request.log.error({ err: error }, 'bug');
  const answer: FaultAnswer = { fault: 'bug', message: `The desk made a mistake (request ${request.id}). Nothing was recorded. The log of the desk says more.`, retryHelps: false };
  return reply.code(500).send(answer);
}
