import '@fastify/cookie';
import type { FastifyRequest } from 'fastify';
import { Refusal } from '../core/refusal';
import { sessionCookie } from './sign-in';

const safeMethods = new Set(['GET', 'HEAD', 'OPTIONS']);

/**
 * Refuses what another site makes a signed-in browser send: by Fetch Metadata where the browser tells, else by Origin or Referer. A
 * request with a token carries nothing that a browser adds by itself, and passes.
 */
export function refuseCrossSite(request: FastifyRequest): void {
  const { headers } = request;
  if (safeMethods.has(request.method) || headers.authorization !== undefined) return;
  const site = headers['sec-fetch-site'];
  if (site !== undefined) {
    if (site !== 'same-origin' && site !== 'none') throw new Refusal('cross-site');
    return;
  }
  const source = headers.origin ?? headers.referer;
  if (source === undefined) {
    if (request.cookies[sessionCookie] === undefined) return;
    throw new Refusal('cross-site', 'With a session cookie send Origin; scripts use a token.');
  }
  if (hostOf(source) !== headers.host) throw new Refusal('cross-site');
}

function hostOf(address: string): string | null {
  return URL.canParse(address) ? new URL(address).host : null;
}
