import { STATUS_CODES } from 'node:http';
import { Catch, HttpException, type ArgumentsHost, type ExceptionFilter } from '@nestjs/common';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Refusal, refusals, type Fault, type RefusalCode } from '../core/refusal';
import { takesCsv, withLines } from './csv';
import { refusalFromDatabase } from './database-refusal';
import { methodsAt } from './route-table';
import { wordsOfFaults } from './validation';

const statuses: Record<RefusalCode, number> = {
  malformed: 400,
  'bad-cursor': 400,
  'bad-idempotency-key': 400,
  'sign-in-needed': 401,
  'sign-in-failed': 401,
  'not-allowed': 403,
  'not-yours': 403,
  'cross-site': 403,
  'not-found': 404,
  'method-not-allowed': 405,
  duplicate: 409,
  'in-use': 409,
  'still-needed': 409,
  'place-taken': 409,
  'other-duty': 409,
  'temperature-clash': 409,
  'station-closed': 409,
  'station-booked': 409,
  'duty-window': 409,
  'club-closed': 409,
  'fair-share': 409,
  'seed-reserved': 409,
  'no-plan': 409,
  'plan-taken': 409,
  'plan-over': 409,
  'plan-upset': 409,
  'booking-over': 409,
  'booking-begun': 409,
  'booking-ahead': 409,
  'arrived-already': 409,
  'places-not-cleared': 409,
  'offer-open': 409,
  'free-now': 409,
  'nothing-offered': 409,
  'wish-over': 409,
  'place-overloaded': 409,
  'not-enough-mass': 409,
  'on-hold': 409,
  'hold-over': 409,
  'lot-unsuitable': 409,
  'loan-out-of-order': 409,
  'more-than-owed': 409,
  'step-out-of-order': 409,
  'step-stays': 409,
  'check-struck-out': 409,
  'last-steward': 409,
  'already-member': 409,
  'invitation-over': 409,
  'reading-differs': 409,
  'request-running': 409,
  stale: 412,
  'match-needed': 428,
  'too-large': 413,
  'wrong-media-type': 415,
  invalid: 422,
  'key-reused': 422,
  'too-many': 429,
  unavailable: 503,
  failure: 500,
};

export function statusOf(code: RefusalCode): number {
  return statuses[code];
}

/** An answer of application/problem+json (RFC 9457). */
export interface Problem {
  type: string;
  title: string;
  status: number;
  detail: string;
  errors?: Fault[];
  [offer: string]: unknown;
}

export function problemOf(refusal: Refusal): Problem {
  return {
    type: `/problems/${refusal.code}`,
    title: refusals[refusal.code],
    status: statuses[refusal.code],
    detail: refusal.detail,
    ...(refusal.more.errors && { errors: refusal.more.errors }),
    ...refusal.more.offers,
  };
}

/** Turns whatever was thrown into a problem+json answer. What is not a refusal becomes a 500 that says nothing of the inside. */
@Catch()
export class ProblemFilter implements ExceptionFilter {
  catch(thrown: unknown, host: ArgumentsHost): void {
    const request = host.switchToHttp().getRequest<FastifyRequest>();
    const reply = host.switchToHttp().getResponse<FastifyReply>();
    const refusal = refusalOf(thrown, request);
    if (refusal.code === 'failure' || refusal.code === 'unavailable') {
      request.log.error({ err: refusal.cause ?? thrown }, refusal.code);
    }
    const { retryAfterSeconds } = refusal.more;
    if (retryAfterSeconds !== undefined) reply.header('retry-after', String(retryAfterSeconds));
    if (refusal.code === 'sign-in-needed') {
      const sentToken = request.headers.authorization !== undefined;
      reply.header('www-authenticate', sentToken ? 'Bearer error="invalid_token"' : 'Bearer');
    }
    if (refusal.code === 'sign-in-failed') reply.header('www-authenticate', 'Bearer');
    if (refusal.code === 'method-not-allowed') {
      reply.header('allow', methodsAt(request.url).join(', '));
    }
    const problem = problemOf(inFile(refusal, request));
    void reply
      .code(problem.status)
      .header('content-type', 'application/problem+json; charset=utf-8')
      .header('cache-control', 'no-store')
      .send(JSON.stringify(problem));
  }
}

/** A refusal of rows that came in a file names their lines. */
function inFile(refusal: Refusal, request: FastifyRequest): Refusal {
  const { errors } = refusal.more;
  if (errors === undefined) return refusal;
  const named = withLines(errors, request);
  const detail = refusal.detail === wordsOfFaults(errors) ? wordsOfFaults(named) : refusal.detail;
  return new Refusal(refusal.code, detail, { ...refusal.more, errors: named });
}

function refusalOf(thrown: unknown, request: FastifyRequest): Refusal {
  const translated = refusalFromDatabase(thrown);
  if (translated instanceof Refusal) return translated;
  const status = statusThrown(thrown);
  if (status === 404) {
    const elsewhere = methodsAt(request.url);
    return elsewhere.length > 0
      ? new Refusal('method-not-allowed', `This address takes ${elsewhere.join(', ')}.`)
      : new Refusal(
          'not-found',
          'There is nothing at this address; /api/docs lists all addresses.',
        );
  }
  if (status === 413) return new Refusal('too-large', 'A body may have 1 MB at most.');
  if (status === 415) {
    const detail = takesCsv(request) ? 'Send application/json or text/csv.' : undefined;
    return new Refusal('wrong-media-type', detail);
  }
  if (status !== null && status >= 400 && status < 500) {
    return new Refusal('malformed', malformedDetail(thrown));
  }
  const failure = new Refusal('failure', 'It was noted under the x-request-id of this answer.');
  failure.cause = thrown;
  return failure;
}

function statusThrown(thrown: unknown): number | null {
  if (thrown instanceof HttpException) return thrown.getStatus();
  const status = (thrown as { statusCode?: unknown } | null)?.statusCode;
  return typeof status === 'number' && STATUS_CODES[status] !== undefined ? status : null;
}

function malformedDetail(thrown: unknown): string {
  const code = (thrown as { code?: unknown }).code;
  return code === 'FST_ERR_CTP_EMPTY_JSON_BODY'
    ? 'The body is empty; send a JSON object.'
    : 'The request could not be read: send valid JSON (RFC 8259) in UTF-8.';
}
