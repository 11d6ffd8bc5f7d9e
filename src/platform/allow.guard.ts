import { Injectable, type ExecutionContext } from '@nestjs/common';
import { Reflector } from '@nestjs/core';
import { AuthGuard } from '@nestjs/passport';
import { Refusal } from '../core/refusal';
import type { AnyCaller, CallerRequest, ClubCaller, PersonCaller } from './caller';
import { refuseCrossSite } from './cross-site';
import { isId } from './fields';
import { fingerprintOf, nobody, readIdempotencyKey, type IdempotencyClaim } from './idempotency';
import { refuseOtherMethods } from './route-table';
import { allowKey, behaviourKey, type AllowRule, type RouteBehaviour } from './routes';
import type { SignedIn } from './sign-in';

/**
 * Lets a request pass by the rule that its route declares, and says who the caller is. A route without a rule is shut; dress() does not
 * even start with one.
 */
@Injectable()
export class AllowGuard extends AuthGuard(['token', 'session-cookie', 'calendar-feed']) {
  constructor(private readonly reflector: Reflector) {
    super();
  }

  override async canActivate(context: ExecutionContext): Promise<boolean> {
    const rule = this.reflector.get<AllowRule | undefined>(allowKey, context.getHandler());
    const behaviour = this.reflector.get<RouteBehaviour | undefined>(
      behaviourKey,
      context.getHandler(),
    );
    if (rule === undefined || behaviour === undefined) throw new Refusal('not-allowed');
    const request = context.switchToHttp().getRequest<CallerRequest>();
    refuseOtherMethods(request);
    refuseCrossSite(request);

    if (rule.who === 'anyone') {
      request.caller = conditions(request, behaviour, nobody);
      return true;
    }
    refuseTokenElsewhere(request);
    await super.canActivate(context);
    const signedIn = request.user as SignedIn;
    // Whoever may not do it learns no more than that: conditions are looked at afterwards (RFC 9110, 13.2.1).
    const place = placeIn(request, signedIn, rule);
    request.caller = { ...conditions(request, behaviour, signedIn.personId), ...place };
    return true;
  }

  override handleRequest<Person = SignedIn>(
    error: unknown,
    person: Person | false | null,
    _info: unknown,
    context: ExecutionContext,
  ): Person {
    if (error instanceof Error) throw error;
    if (person === false || person === null) throw new Refusal('sign-in-needed');
    const { authorization } = context.switchToHttp().getRequest<CallerRequest>().headers;
    // A bad token is refused even when the browser's cookie would do.
    if (authorization !== undefined && (person as SignedIn).tokenId === null) {
      throw new Refusal('sign-in-needed');
    }
    return person;
  }
}

/** Who the caller is, where the rule is about a club also in it. Refuses whom the rule does not let in. */
function placeIn(
  request: CallerRequest,
  signedIn: SignedIn,
  rule: Exclude<AllowRule, { who: 'anyone' }>,
): Omit<PersonCaller, keyof AnyCaller> & Partial<Pick<ClubCaller, 'clubId' | 'memberId' | 'role'>> {
  const { memberId, role, ...person } = signedIn;
  if (rule.who === 'person') {
    refuseWithoutScope(signedIn, rule);
    return person;
  }
  const { clubId } = request.params as { clubId?: unknown };
  // Not in the club and no such club are the same to the caller.
  if (memberId === null || role === null || !isId(clubId)) throw new Refusal('not-found');
  refuseWithoutScope(signedIn, rule);
  if (rule.who === 'steward' && role !== 'steward') {
    throw new Refusal('not-allowed', 'Only a steward of the club may do this.');
  }
  return { ...person, clubId, memberId, role };
}

function refuseWithoutScope(
  { scopes }: SignedIn,
  { scope }: Exclude<AllowRule, { who: 'anyone' }>,
): void {
  if (scopes === null) return;
  if (scope === 'session') {
    throw new Refusal(
      'not-allowed',
      'This cannot be done with a token: sign in with e-mail and password.',
    );
  }
  if (!scopes.includes(scope)) {
    throw new Refusal('not-allowed', `The token lacks the scope "${scope}".`);
  }
}

/** passport's bearer strategy would also read a token from the query or the body, where it ends up in logs and histories. */
function refuseTokenElsewhere(request: CallerRequest): void {
  for (const place of [request.query, request.body]) {
    if (typeof place === 'object' && place !== null && 'access_token' in place) {
      throw new Refusal(
        'sign-in-needed',
        'A token is taken from the header alone: Authorization: Bearer …',
      );
    }
  }
}

function conditions(
  request: CallerRequest,
  behaviour: RouteBehaviour,
  personId: string,
): AnyCaller {
  const ifMatch = request.headers['if-match'] ?? null;
  return {
    requestId: request.id,
    ifMatch: behaviour.needsMatch === true ? requireMatch(ifMatch) : null,
    idempotency: behaviour.takesIdempotencyKey === true ? claimOf(request, personId) : null,
  };
}

function requireMatch(ifMatch: string | null): string {
  if (ifMatch === null) throw new Refusal('match-needed');
  return ifMatch;
}

function claimOf(request: CallerRequest, personId: string): IdempotencyClaim | null {
  const header = request.headers['idempotency-key'];
  if (header === undefined) return null;
  const key = readIdempotencyKey(String(header));
  return {
    personId,
    route: `${request.method} ${request.routeOptions.url ?? ''}`,
    key,
    fingerprint: fingerprintOf(key, request.url, request.body),
    replayed: false,
  };
}
