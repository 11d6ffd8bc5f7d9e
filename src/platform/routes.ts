import { applyDecorators, Header, HttpCode, SetMetadata, type Type } from '@nestjs/common';
import { RouteConfig } from '@nestjs/platform-fastify';
import {
  ApiBearerAuth,
  ApiCookieAuth,
  ApiExtraModels,
  ApiHeader,
  ApiOperation,
  ApiResponse,
  getSchemaPath,
} from '@nestjs/swagger';
import type { RefusalCode } from '../core/refusal';
import { refuses } from './documented-refusals';
import type { TokenScope } from './prisma-client/enums';

// Every route carries @Allow (who may) and one of @Answers, @AnswersCsv, @AnswersCalendar (more files: file-answers.ts), @Lists, @Creates, @Acts, @Records, @Reckons, @Changes, @Removes (what comes back). They rule the
// guard and the interceptors, and write the same into the OpenAPI document.

/** Who may use a route, and which scope a token needs for it; `session`: no token will do. */
export type AllowRule =
  { who: 'anyone' } | { who: 'person' | 'member' | 'steward'; scope: TokenScope | 'session' };

export const allowKey = 'allow';
export const behaviourKey = 'behaviour';

export interface RouteBehaviour {
  creates?: boolean;
  lists?: boolean;
  needsMatch?: boolean;
  takesIdempotencyKey?: boolean;
  showsSecret?: boolean;
}

/** Open to everybody, signed in or not. */
export function AllowAnyone(): MethodDecorator {
  return SetMetadata(allowKey, { who: 'anyone' } satisfies AllowRule);
}

/**
 * `person`: whoever is signed in. `member`: a member of the club in the address. `steward`: a steward of it. Whoever is not in the club
 * gets 404.
 */
export function Allow(
  who: 'person' | 'member' | 'steward',
  scope: TokenScope | 'session',
): MethodDecorator {
  return applyDecorators(
    SetMetadata(allowKey, { who, scope } satisfies AllowRule),
    ApiCookieAuth('session'),
    ...(scope === 'session' ? [] : [ApiBearerAuth('token')]),
    refuses('sign-in-needed'),
    refuses('not-allowed'),
    ...(who === 'person' ? [] : [refuses('not-found')]),
  );
}

/**
 * Lets whoever has the secret of a calendar feed in, too, as the member whose feed it is: calendar programs send no headers, so it stands in
 * the query, as `feed`. It opens no other route.
 */
export function AllowFeed(): MethodDecorator {
  return RouteConfig({ allowsFeed: true });
}

type Model = Type;

/** Answers 200 with one thing. */
export function Answers(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiResponse({
      status: 200,
      type: model,
      description: 'As it stands now.',
      headers: { ETag: tagHeader },
    }),
    ApiResponse({ status: 304, description: 'Not changed since If-None-Match.' }),
    ...more.map(refuses),
  );
}

/** Answers 200 with a file of comma-separated values (RFC 4180), for scripts and spreadsheets. */
export function AnswersCsv(
  summary: string,
  fileName: string,
  ...more: RefusalCode[]
): MethodDecorator {
  return applyDecorators(
    Header('Content-Type', 'text/csv; charset=utf-8; header=present'),
    Header('Content-Disposition', `attachment; filename="${fileName}"`),
    answersText(summary, 'text/csv', 'With a first line that names the columns.', more),
  );
}

/** Answers 200 with a calendar (RFC 5545), for calendar programs. */
export function AnswersCalendar(
  summary: string,
  fileName: string,
  ...more: RefusalCode[]
): MethodDecorator {
  return applyDecorators(
    Header('Content-Type', 'text/calendar; charset=utf-8'),
    Header('Content-Disposition', `inline; filename="${fileName}"`),
    answersText(summary, 'text/calendar', 'Times are in UTC.', more),
  );
}

function answersText(
  summary: string,
  mediaType: string,
  description: string,
  more: RefusalCode[],
): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiResponse({
      status: 200,
      description,
      headers: { ETag: tagHeader },
      content: { [mediaType]: { schema: { type: 'string', maxLength: 10_000_000 } } },
    }),
    ApiResponse({ status: 304, description: 'Not changed since If-None-Match.' }),
    ...more.map(refuses),
  );
}

/** Answers 200 with a page to print (HTML), complete in itself and without scripts. */
export function AnswersHtml(summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    Header('Content-Type', 'text/html; charset=utf-8'),
    Header('Content-Security-Policy', printedPagePolicy),
    ApiResponse({
      status: 200,
      description: 'A page of its own.',
      headers: { ETag: tagHeader },
      content: { 'text/html': { schema: { type: 'string', maxLength: 100_000_000 } } },
    }),
    ApiResponse({ status: 304, description: 'Not changed since If-None-Match.' }),
    ...more.map(refuses),
  );
}

/** Answers 200 with a page of things. */
export function Lists(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, { lists: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiExtraModels(model),
    ApiResponse({
      status: 200,
      description: 'A page; Link rel="next" and nextCursor lead to the next one.',
      headers: { ETag: tagHeader, Link: linkHeader },
      schema: {
        type: 'object',
        required: ['items', 'nextCursor'],
        additionalProperties: false,
        properties: {
          items: { type: 'array', maxItems: 200, items: { $ref: getSchemaPath(model) } },
          nextCursor: { type: 'string', nullable: true, maxLength: 500 },
        },
      },
    }),
    ApiResponse({ status: 304, description: 'Not changed since If-None-Match.' }),
    refuses('bad-cursor'),
    refuses('invalid'),
    ...more.map(refuses),
  );
}

/** Answers 201 with what was made, and its address in Location where it has one. Takes an Idempotency-Key, unless told otherwise. */
export function Creates(
  model: Model,
  summary: string,
  options: {
    refuses?: RefusalCode[];
    location?: boolean;
    showsSecret?: boolean;
    takesIdempotencyKey?: boolean;
  } = {},
): MethodDecorator {
  const { location = true, showsSecret = false, takesIdempotencyKey = true } = options;
  return applyDecorators(
    SetMetadata(behaviourKey, {
      creates: location,
      takesIdempotencyKey,
      showsSecret,
    } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ...(takesIdempotencyKey ? [idempotencyHeader] : []),
    ApiResponse({
      status: 201,
      type: model,
      description: 'Made.',
      headers: {
        ...(location && { Location: locationHeader }),
        ...(!showsSecret && { ETag: tagHeader }),
        ...(takesIdempotencyKey && {
          'Idempotent-Replayed': {
            schema: { type: 'string', enum: ['true'] },
            description:
              'There when this is the kept answer to an earlier request with the same key.',
          },
        }),
      },
    }),
    ...bodyRefusals,
    ...(takesIdempotencyKey ? keyRefusals : []),
    ...(options.refuses ?? []).map(refuses),
  );
}

/** Answers 200 with the thing after something was done to it. Takes an Idempotency-Key. */
export function Acts(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, { takesIdempotencyKey: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    idempotencyHeader,
    ApiResponse({
      status: 200,
      type: model,
      description: 'As it stands now.',
      headers: { ETag: tagHeader },
    }),
    ...bodyRefusals,
    ...keyRefusals,
    ...more.map(refuses),
  );
}

/**
 * Answers 200 with what became of records that were sent. What is on record already is only counted, so sending the same again has no
 * further effect, and no Idempotency-Key is taken.
 */
export function Records(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({
      summary,
      description:
        'What is on record already is only counted: sending the same again is safe, and needs no Idempotency-Key.',
    }),
    ApiResponse({
      status: 200,
      type: model,
      description: 'Recorded.',
      headers: { ETag: tagHeader },
    }),
    ...bodyRefusals,
    ...more.map(refuses),
  );
}

/** Answers 200 with what was reckoned from the body. It makes and changes nothing, so it takes no Idempotency-Key. */
export function Reckons(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    HttpCode(200),
    SetMetadata(behaviourKey, {} satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiResponse({
      status: 200,
      type: model,
      description: 'The result, and what it stands on.',
      headers: { ETag: tagHeader },
    }),
    ...bodyRefusals,
    ...more.map(refuses),
  );
}

/** Answers 200 with the changed thing. Needs If-Match. */
export function Changes(model: Model, summary: string, ...more: RefusalCode[]): MethodDecorator {
  return applyDecorators(
    SetMetadata(behaviourKey, { needsMatch: true } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    matchHeader,
    ApiResponse({
      status: 200,
      type: model,
      description: 'As it stands now.',
      headers: { ETag: tagHeader },
    }),
    ...bodyRefusals,
    refuses('stale'),
    refuses('match-needed'),
    ...more.map(refuses),
  );
}

/** Answers 204. Needs If-Match, unless there is nothing to match. */
export function Removes(
  summary: string,
  options: { refuses?: RefusalCode[]; needsMatch?: boolean } = {},
): MethodDecorator {
  const { needsMatch = true } = options;
  return applyDecorators(
    HttpCode(204),
    SetMetadata(behaviourKey, { needsMatch } satisfies RouteBehaviour),
    ApiOperation({ summary }),
    ApiResponse({ status: 204, description: 'Gone.' }),
    refuses('cross-site'),
    ...(needsMatch ? [matchHeader, refuses('stale'), refuses('match-needed')] : []),
    ...(options.refuses ?? []).map(refuses),
  );
}

/** Its own style and nothing else. */
const printedPagePolicy =
  "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";

export const tagHeader = {
  schema: { type: 'string' as const, maxLength: 40, pattern: '^(W/)?"[\\w-]+"$' },
  description: 'Strong for one thing, weak for a list (RFC 9110, 8.8.3).',
};

const linkHeader = {
  schema: { type: 'string' as const, maxLength: 2000 },
  description: 'RFC 8288; there while there is a next page.',
};

const locationHeader = {
  schema: { type: 'string' as const, format: 'uri-reference', maxLength: 500 },
  description: 'The address of what was made.',
};

const matchHeader = ApiHeader({
  name: 'If-Match',
  required: true,
  description: 'The ETag under which you read it.',
  schema: { type: 'string', maxLength: 1000 },
});

const idempotencyHeader = ApiHeader({
  name: 'Idempotency-Key',
  required: false,
  description:
    'A quoted string or a bare UUID of your choice; for 24 hours the same request with the same key has one effect and one answer.',
  schema: { type: 'string', maxLength: 520 },
});

const bodyRefusals = (
  ['malformed', 'cross-site', 'too-large', 'wrong-media-type', 'invalid'] as const
).map(refuses);

const keyRefusals = (['bad-idempotency-key', 'request-running', 'key-reused'] as const).map(
  refuses,
);
