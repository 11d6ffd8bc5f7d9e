import { Injectable } from '@nestjs/common';
import { Refusal } from '../core/refusal';
import type { PersonCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { pageOf, startOf, type Page, type PageQuery } from '../platform/paging';
import { Prisma } from '../platform/prisma-client/client';
import { hashSecret, newSecret } from '../platform/secrets';
import { sessionDays, sessionIdleDays } from '../platform/sign-in';
import {
  toOpenSession,
  toSessionResponse,
  type OpenSession,
  type OpenSessionRow,
  type SessionResponse,
  type SessionRow,
} from './session.responses';

@Injectable()
export class Sessions {
  constructor(private readonly database: Database) {}

  /** A new session with a new secret. The one whose secret came along ends: nobody can slip a person a session known beforehand. */
  async begin(
    caller: PersonCaller,
    userAgent: string,
    secretBefore: string | undefined,
  ): Promise<{ secret: string; session: SessionResponse }> {
    const secret = newSecret(32);
    const { personId } = caller;
    return this.database.write(caller, async (tx) => {
      if (secretBefore !== undefined) {
        await tx.session.deleteMany({ where: { secretHash: hashSecret(secretBefore) } });
      }
      await tx.$executeRaw`delete from session where person_id = ${personId}::uuid and not (${isLive})`;
      const [begun] = await tx.$queryRaw<{ id: string }[]>`
        insert into session (person_id, secret_hash, device, expires_at)
        values (${personId}::uuid, ${hashSecret(secret)}, ${userAgent.slice(0, 200)},
          now() + make_interval(days => ${sessionDays}::int))
        returning id`;
      const [row] = await tx.$queryRaw<SessionRow[]>(signedInWith(begun?.id ?? null, null));
      return { secret, session: toSessionResponse(found(row)) };
    });
  }

  async of({ sessionId, tokenId }: PersonCaller): Promise<SessionResponse> {
    const [row] = await this.database.rows<SessionRow>(signedInWith(sessionId, tokenId));
    return toSessionResponse(found(row));
  }

  async list(caller: PersonCaller, query: PageQuery): Promise<Page<OpenSession>> {
    const list = `sessions of ${caller.personId}`;
    const [after = null] = startOf(query, list) ?? [];
    const rows = await this.database.rows<OpenSessionRow>(Prisma.sql`
      select id, device, created_at as "createdAt", last_used_at as "lastUsedAt",
        id = ${caller.sessionId}::uuid as "isThisOne"
      from session
      where person_id = ${caller.personId}::uuid and ${isLive} and (${after}::uuid is null or id < ${after}::uuid)
      order by id desc limit ${query.limit + 1}`);
    return pageOf(rows, query, list, (row) => [row.id], toOpenSession);
  }

  async end(caller: PersonCaller, id: string): Promise<void> {
    await this.database.write(caller, async (tx) => {
      const { count } = await tx.session.deleteMany({ where: { id, personId: caller.personId } });
      if (count === 0) throw new Refusal('not-found');
    });
  }
}

const isLive = Prisma.sql`expires_at > now() and last_used_at > now() - make_interval(days => ${sessionIdleDays}::int)`;

function signedInWith(sessionId: string | null, tokenId: string | null): Prisma.Sql {
  return Prisma.sql`
    select c.id, c.kind, p.id as "personId", p.name, p.email, c.created_at as "createdAt", c.expires_at as "expiresAt",
      coalesce((
        select json_agg(json_build_object('clubId', k.id, 'clubName', k.name, 'memberId', m.id, 'role', m.role) order by k.name, k.id)
        from member m join club k on k.id = m.club_id where m.person_id = p.id and m.left_at is null
      ), '[]') as clubs
    from (
      select id, 'session' as kind, person_id, created_at, expires_at from session where id = ${sessionId}::uuid
      union all
      select id, 'token', person_id, created_at, expires_at from token where id = ${tokenId}::uuid
    ) c join person p on p.id = c.person_id`;
}

function found<Row>(row: Row | undefined): Row {
  // It ended between the check and here.
  if (row === undefined) throw new Refusal('sign-in-needed');
  return row;
}
