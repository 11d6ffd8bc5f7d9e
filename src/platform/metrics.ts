import type { FastifyInstance } from 'fastify';
import { Histogram, Registry } from 'prom-client';

export const metrics = new Registry();

const answered = new Histogram({
  name: 'creaming_room_request_duration_seconds',
  help: 'Time from a request to its answer, by route.',
  labelNames: ['method', 'route', 'status'],
  buckets: [0.005, 0.02, 0.05, 0.1, 0.25, 1, 5],
  registers: [metrics],
});

/** Counts and times every answer by route, never by address: the labels stay few. */
export function countRequests(fastify: FastifyInstance): void {
  fastify.addHook('onResponse', (request, reply, done) => {
    answered.observe(
      {
        method: request.method,
        route: request.routeOptions.url ?? 'none',
        status: `${Math.floor(reply.statusCode / 100)}xx`,
      },
      reply.elapsedTime / 1000,
    );
    done();
  });
}
