import type { FastifyInstance, FastifyRequest } from 'fastify';
import { Refusal } from '../core/refusal';
import { isId } from './fields';

/** One address of the service, as the router knows it. */
export interface ServedRoute {
  method: string;
  /** With parameters, such as /api/v1/clubs/:clubId. */
  path: string;
}

const served: ServedRoute[] = [];

/** Notes every route as it is added. To be called before the application adds its own. */
export function noteRoutes(fastify: FastifyInstance): void {
  served.length = 0;
  fastify.addHook('onRoute', ({ method, path }) => {
    for (const one of [method].flat()) served.push({ method: one, path });
  });
}

export function servedRoutes(): readonly ServedRoute[] {
  return served;
}

/**
 * The methods that an address takes, for an answer of 405; none when there is nothing at it. An address that is written out goes before one
 * with a parameter: …/loans/asks is no loan.
 */
export function methodsAt(url: string): string[] {
  const parts = pathParts(url.split('?')[0] ?? '');
  const matching = served
    .map(({ method, path }) => ({ method, path, pattern: pathParts(path) }))
    .filter(
      ({ path, pattern }) =>
        pattern.length === parts.length &&
        !path.includes('*') &&
        pattern.every((part, index) => part.startsWith(':') || part === parts[index]),
    )
    .map(({ method, pattern }) => ({
      method,
      parameters: pattern.filter((part) => part.startsWith(':')).length,
    }));
  const fewest = Math.min(...matching.map(({ parameters }) => parameters));
  const nearest = matching.filter(({ parameters }) => parameters === fewest);
  return [...new Set(nearest.map(({ method }) => method))].sort();
}

/** Refuses a request that the router took for one of a thing, where the address is written out for other methods. */
export function refuseOtherMethods(request: FastifyRequest): void {
  // An id is never written out.
  if (Object.values(request.params ?? {}).every(isId)) return;
  const methods = methodsAt(request.url);
  if (methods.includes(request.method)) return;
  throw new Refusal('method-not-allowed', `This address takes ${methods.join(', ')}.`);
}

function pathParts(path: string): string[] {
  return path.split('/').filter((part) => part !== '');
}
