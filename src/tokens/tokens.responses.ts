import { Day, Id, Instant, Text } from '../platform/fields';
import { SomeOf } from '../platform/list-fields';
import { TokenScope } from '../platform/prisma-client/enums';

export class TokenResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ min: 4, max: 4, is: 'Its last four characters.' })
  ending!: string;

  @SomeOf(TokenScope, { min: 1 })
  scopes!: TokenScope[];

  @Instant()
  createdAt!: string;

  @Instant()
  expiresAt!: string;

  @Day({ nullable: true, is: 'The last day of use, in UTC.' })
  lastUsedOn!: string | null;
}

export class NewToken extends TokenResponse {
  @Text({ max: 42, is: 'Shown this once: Authorization: Bearer …' })
  token!: string;
}

export interface TokenRow {
  id: string;
  name: string;
  ending: string;
  scopes: TokenScope[];
  createdAt: Date;
  expiresAt: Date;
  lastUsedAt: Date | null;
}

export function toTokenResponse(row: TokenRow): TokenResponse {
  return {
    id: row.id,
    name: row.name,
    ending: row.ending,
    scopes: row.scopes,
    createdAt: row.createdAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    // By day alone, so that a token that is used all the time can still be read and then removed by its ETag.
    lastUsedOn: row.lastUsedAt?.toISOString().slice(0, 10) ?? null,
  };
}
