import { ApiHeader } from '@nestjs/swagger';

// The headers that routes take and give, as the OpenAPI document tells of them.

export const tagHeader = {
  schema: { type: 'string' as const, maxLength: 40, pattern: '^(W/)?"[\\w-]+"$' },
  description: 'Strong for one thing, weak for a list (RFC 9110, 8.8.3).',
};

export const linkHeader = {
  schema: { type: 'string' as const, maxLength: 2000 },
  description: 'RFC 8288; there while there is a next page.',
};

export const locationHeader = {
  schema: { type: 'string' as const, format: 'uri-reference', maxLength: 500 },
  description: 'The address of what was made.',
};

export const matchHeader = ApiHeader({
  name: 'If-Match',
  required: true,
  description: 'The ETag under which you read it.',
  schema: { type: 'string', maxLength: 1000 },
});

export const idempotencyHeader = ApiHeader({
  name: 'Idempotency-Key',
  required: false,
  description:
    'A quoted string or a bare UUID of your choice; for 24 hours the same request with the same key has one effect and one answer.',
  schema: { type: 'string', maxLength: 520 },
});
