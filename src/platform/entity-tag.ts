import { createHash } from 'node:crypto';
import type { FastifyInstance } from 'fastify';
import { Refusal } from '../core/refusal';
import type { AnyCaller } from './caller';

/** The strong ETag of a representation (RFC 9110, 8.8.3): it changes exactly when the representation does. */
export function entityTag(json: string | Buffer): string {
  return `"${createHash('sha1').update(json).digest('base64url')}"`;
}

/**
 * Refuses when the caller's If-Match is not the ETag of what stands there now. Call it in the writing transaction, with the row
 * locked and in the form in which GET answers it.
 */
export function refuseIfStale(caller: AnyCaller, current: object): void {
  if (caller.ifMatch === null) throw new Refusal('match-needed');
  const wanted = caller.ifMatch.split(',').map((tag) => tag.trim());
  if (!wanted.includes(entityTag(JSON.stringify(current)))) {
    throw new Refusal('stale', 'It has changed since you read it: read it again and decide anew.');
  }
}

/** Gives each answer of JSON, CSV or another file its ETag, and answers 304 to a reader who has it. Answers marked no-store (they show a secret) get none. */
export function tagEntities(fastify: FastifyInstance): void {
  fastify.addHook('onSend', (request, reply, payload, done) => {
    const isRepresentation =
      /^(application\/(json|ld\+json|pdf)|text\/(csv|html|calendar)|image\/svg\+xml)/.test(
        String(reply.getHeader('content-type')),
      );
    const isSecret = reply.getHeader('cache-control') === 'no-store';
    const isWhole = typeof payload === 'string' || Buffer.isBuffer(payload);
    if (reply.statusCode >= 300 || !isRepresentation || isSecret || !isWhole) {
      done();
      return;
    }
    const isList = reply.getHeader('x-list') !== undefined;
    const tag = isList ? `W/${entityTag(payload)}` : entityTag(payload);
    reply.removeHeader('x-list');
    reply.header('etag', tag);
    reply.header('cache-control', 'private, no-cache');
    const known = request.headers['if-none-match']?.split(',').map((text) => weak(text.trim()));
    const isRead = request.method === 'GET' || request.method === 'HEAD';
    if (!isRead || known?.includes(weak(tag)) !== true) {
      done();
      return;
    }
    reply.code(304);
    reply.removeHeader('content-type');
    reply.removeHeader('content-length');
    done(null, '');
  });
}

function weak(tag: string): string {
  return tag.replace(/^W\//, '');
}
