import { STATUS_CODES } from 'node:http';
import type { Socket } from 'node:net';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Refusal } from '../core/refusal';
import { problemOf } from './problem';

// What fails before a route is found passes no filter: it is answered here, in the same form.

/** Answers a request whose address cannot be read. */
export function answerUnreadableAddress(
  _error: Error,
  request: FastifyRequest,
  reply: FastifyReply,
): void {
  const problem = problemOf(new Refusal('malformed', 'The address cannot be read.'));
  void reply
    .code(problem.status)
    .header('content-type', 'application/problem+json; charset=utf-8')
    .header('cache-control', 'no-store')
    .header('x-request-id', request.id)
    .send(JSON.stringify(problem));
}

/** Answers on the bare connection what is no request of HTTP, is too long in its headers, or takes too long to come. */
export function answerNoRequest(error: NodeJS.ErrnoException, socket: Socket): void {
  if (error.code === 'ECONNRESET' || socket.destroyed || !socket.writable) return;
  const status = statusOfParser[error.code ?? ''] ?? 400;
  const title = STATUS_CODES[status] ?? '';
  const body = JSON.stringify({ type: 'about:blank', title, status, detail: 'It was not read.' });
  const head = [
    `HTTP/1.1 ${status} ${title}`,
    'Content-Type: application/problem+json; charset=utf-8',
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Connection: close',
  ];
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`);
}

const statusOfParser: Record<string, number> = {
  HPE_HEADER_OVERFLOW: 431,
  ERR_HTTP_REQUEST_TIMEOUT: 408,
};
