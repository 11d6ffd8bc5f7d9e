import { randomUUID } from 'node:crypto';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { pino, type Logger } from 'pino';
import type { CallerRequest } from './caller';

/** The service's log: one JSON line an event, on standard output; no secret in it. */
export function openLog(level: string): Logger {
  return pino({
    level,
    redact: ['req.headers', 'err.query', 'err.parameters'],
    serializers: {
      req: (request: FastifyRequest) => ({
        method: request.method,
        route: request.routeOptions.url,
      }),
    },
  });
}

/** The id under which a request is found in the log: the caller's x-request-id if it is harmless, else a new one. */
export function requestIdOf(headers: Record<string, string | string[] | undefined>): string {
  const given = headers['x-request-id'];
  return typeof given === 'string' && /^[\w.-]{8,64}$/.test(given) ? given : randomUUID();
}

/** One line a request, when it is answered. The route stands for the address, which can hold an invitation's code. */
export function logRequests(fastify: FastifyInstance): void {
  fastify.addHook('onRequest', (request, reply, done) => {
    reply.header('x-request-id', request.id);
    done();
  });
  fastify.addHook('onResponse', (request, reply, done) => {
    const { caller } = request as CallerRequest;
    const person = caller !== undefined && 'personId' in caller ? caller.personId : undefined;
    request.log.info(
      {
        method: request.method,
        route: request.routeOptions.url ?? 'none',
        status: reply.statusCode,
        ms: Math.round(reply.elapsedTime),
        personId: person,
      },
      'answered',
    );
    done();
  });
}
