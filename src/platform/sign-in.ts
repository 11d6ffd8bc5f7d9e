import { Injectable, Logger } from '@nestjs/common';
import { PassportStrategy } from '@nestjs/passport';
import '@fastify/cookie';
import type { FastifyRequest } from 'fastify';
import { Strategy as CustomStrategy } from 'passport-custom';
import { Strategy as BearerStrategy } from 'passport-http-bearer';
import type { PersonCaller } from './caller';
import { Database } from './database';
import { isId } from './fields';
import { Refusal } from '../core/refusal';
import { Prisma } from './prisma-client/client';
import type { Role, TokenScope } from './prisma-client/enums';
import { hashSecret, isWellFormedToken } from './secrets';

/** The prefix makes browsers insist on Secure, this host alone, and every path. */
export const sessionCookie = '__Host-creaming-room';

export const sessionIdleDays = 14;
export const sessionDays = 90;

/** Who a signed-in request comes from, and their place in the club of its address. */
export interface SignedIn extends Pick<
  PersonCaller,
  'personId' | 'personName' | 'sessionId' | 'tokenId' | 'scopes'
> {
  memberId: string | null;
  role: Role | null;
}

interface Found {
  personId: string;
  personName: string;
  id: string;
  isUseNoted: boolean;
  scopes: TokenScope[] | null;
  memberId: string | null;
  role: Role | null;
}

/** Finds the person behind a session cookie or a token: one round trip, the membership with it. */
@Injectable()
export class SignIn {
  private readonly log = new Logger(SignIn.name);

  constructor(private readonly database: Database) {}

  async bySession(secret: string, clubId: string | null): Promise<SignedIn | null> {
    const [found] = await this.database.rows<Found>(Prisma.sql`
      select p.id as "personId", p.name as "personName", s.id, null as scopes,
        s.last_used_at > now() - interval '1 minute' as "isUseNoted", m.id as "memberId", m.role
      from session s join person p on p.id = s.person_id
      left join member m on m.club_id = ${clubId}::uuid and m.person_id = p.id and m.left_at is null
      where s.secret_hash = ${hashSecret(secret)} and s.expires_at > now()
        and s.last_used_at > now() - make_interval(days => ${sessionIdleDays}::int)`);
    if (found === undefined) return null;
    if (!found.isUseNoted) {
      this.note(Prisma.sql`update session set last_used_at = now() where id = ${found.id}::uuid`);
    }
    return { ...signedIn(found), sessionId: found.id, tokenId: null };
  }

  async byToken(token: string, clubId: string | null): Promise<SignedIn | null> {
    if (!isWellFormedToken(token)) return null;
    const [found] = await this.database.rows<Found>(Prisma.sql`
      select p.id as "personId", p.name as "personName", t.id, t.scopes::text[] as scopes,
        coalesce(t.last_used_at > now() - interval '1 minute', false) as "isUseNoted", m.id as "memberId", m.role
      from token t join person p on p.id = t.person_id
      left join member m on m.club_id = ${clubId}::uuid and m.person_id = p.id and m.left_at is null
      where t.secret_hash = ${hashSecret(token)} and t.expires_at > now()`);
    if (found === undefined) return null;
    if (!found.isUseNoted) {
      this.note(Prisma.sql`update token set last_used_at = now() where id = ${found.id}::uuid`);
    }
    return { ...signedIn(found), sessionId: null, tokenId: found.id };
  }

  /** The member behind the secret of a calendar feed of that club. */
  async byFeed(secret: string, clubId: string | null): Promise<SignedIn | null> {
    if (!/^[0-9A-Za-z]{32}$/.test(secret)) return null;
    const [found] = await this.database.rows<Found>(Prisma.sql`
      select p.id as "personId", p.name as "personName", f.id, '{read}'::text[] as scopes,
        coalesce(f.last_used_at > now() - interval '1 hour', false) as "isUseNoted", m.id as "memberId", 'member' as role
      from calendar_feed f
      join member m on m.club_id = f.club_id and m.id = f.member_id and m.left_at is null
      join person p on p.id = m.person_id
      where f.club_id = ${clubId}::uuid and f.secret_hash = ${hashSecret(secret)}`);
    if (found === undefined) return null;
    if (!found.isUseNoted) {
      this.note(
        Prisma.sql`update calendar_feed set last_used_at = now() where club_id = ${clubId}::uuid and id = ${found.id}::uuid`,
      );
    }
    return { ...signedIn(found), sessionId: null, tokenId: null };
  }

  // The request does not wait for it, and does not fail with it.
  private note(use: Prisma.Sql): void {
    this.database.rows(use).catch((error: unknown) => {
      this.log.warn(`A last use was not noted: ${String(error)}`);
    });
  }
}

function signedIn(found: Found) {
  const { personId, personName, scopes, memberId, role } = found;
  return { personId, personName, scopes, memberId, role };
}

function clubOf(request: FastifyRequest): string | null {
  const clubId = (request.params as { clubId?: unknown } | null)?.clubId;
  return isId(clubId) ? clubId : null;
}

@Injectable()
export class SessionStrategy extends PassportStrategy(CustomStrategy, 'session-cookie') {
  constructor(private readonly signIn: SignIn) {
    super();
  }

  async validate(request: FastifyRequest): Promise<SignedIn | null> {
    const secret = request.cookies[sessionCookie];
    return secret === undefined ? null : this.signIn.bySession(secret, clubOf(request));
  }
}

@Injectable()
export class TokenStrategy extends PassportStrategy(BearerStrategy, 'token') {
  constructor(private readonly signIn: SignIn) {
    super({ passReqToCallback: true });
  }

  async validate(request: FastifyRequest, token: string): Promise<SignedIn | null> {
    return this.signIn.byToken(token, clubOf(request));
  }
}

/** Comes after the others, and only on the routes that say so. */
@Injectable()
export class FeedStrategy extends PassportStrategy(CustomStrategy, 'calendar-feed') {
  constructor(private readonly signIn: SignIn) {
    super();
  }

  async validate(request: FastifyRequest): Promise<SignedIn | null> {
    const { allowsFeed } = request.routeOptions.config as { allowsFeed?: true };
    const { feed } = request.query as { feed?: unknown };
    if (allowsFeed !== true || typeof feed !== 'string') return null;
    const found = await this.signIn.byFeed(feed, clubOf(request));
    // A feed that was ended is gone: a calendar program that is told to sign in would ask for a password.
    if (found === null) throw new Refusal('not-found', 'There is no such feed, or it was ended.');
    return found;
  }
}
