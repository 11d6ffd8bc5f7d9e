import type { FastifyInstance } from 'fastify';

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

/** The methods that an address takes, for an answer of 405; none when there is nothing at it. */
export function methodsAt(url: string): string[] {
  const parts = pathParts(url.split('?')[0] ?? '');
  const methods = served
    .filter(({ path }) => {
      const pattern = pathParts(path);
      return (
        pattern.length === parts.length &&
        !path.includes('*') &&
        pattern.every((part, index) => part.startsWith(':') || part === parts[index])
      );
    })
    .map(({ method }) => method);
  return [...new Set(methods)].sort();
}

function pathParts(path: string): string[] {
  return path.split('/').filter((part) => part !== '');
}
