import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { PersonCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { refuseIfStale } from '../platform/entity-tag';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { hashSecret, newToken } from '../platform/secrets';
import type { TokenRequest } from './tokens.requests';
import {
  toTokenResponse,
  type NewToken,
  type TokenResponse,
  type TokenRow,
} from './tokens.responses';

@Injectable()
export class Tokens {
  constructor(private readonly database: Database) {}

  async make(caller: PersonCaller, request: TokenRequest): Promise<NewToken> {
    const { name, scopes, expiresInDays } = request;
    const token = newToken();
    return this.database.write(caller, async (tx) => {
      const [made] = await tx.$queryRaw<{ id: string }[]>`
        insert into token (person_id, name, secret_hash, ending, scopes, expires_at)
        values (${caller.personId}::uuid, ${name}, ${hashSecret(token)}, ${token.slice(-4)},
          ${[...new Set(scopes)]}::text[]::token_scope[], now() + make_interval(days => ${expiresInDays}::int))
        returning id`;
      const [row] = await tx.$queryRaw<TokenRow[]>(tokens(caller, made?.id ?? null));
      return Object.assign(toTokenResponse(found(row)), { token });
    });
  }

  async list(caller: PersonCaller, query: PageQuery): Promise<Page<TokenResponse>> {
    const list = `tokens of ${caller.personId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<TokenRow>(Prisma.sql`
      ${tokens(caller, null)} and (${after}::uuid is null or id < ${after}::uuid)
      order by id desc limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.id], toTokenResponse);
  }

  async one(caller: PersonCaller, id: string): Promise<TokenResponse> {
    const [row] = await this.database.rows<TokenRow>(tokens(caller, id));
    return toTokenResponse(found(row));
  }

  async remove(caller: PersonCaller, id: string): Promise<void> {
    await this.database.write(caller, async (tx) => {
      const [row] = await tx.$queryRaw<TokenRow[]>(Prisma.sql`${tokens(caller, id)} for update`);
      refuseIfStale(caller, toTokenResponse(found(row)));
      await tx.token.delete({ where: { id } });
    });
  }
}

/** The person's tokens, or the one with that id. */
function tokens({ personId }: PersonCaller, id: string | null): Prisma.Sql {
  return Prisma.sql`
    select id, name, ending, scopes::text[] as scopes, created_at as "createdAt", expires_at as "expiresAt",
      last_used_at as "lastUsedAt"
    from token where person_id = ${personId}::uuid and (${id}::uuid is null or id = ${id}::uuid)`;
}

function found(row: TokenRow | undefined): TokenRow {
  if (row === undefined) throw new Refusal('not-found');
  return row;
}
