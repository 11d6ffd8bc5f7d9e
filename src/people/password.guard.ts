import { Injectable, type ExecutionContext } from '@nestjs/common';
import { AuthGuard, PassportStrategy } from '@nestjs/passport';
import type { FastifyReply } from 'fastify';
import { Strategy as LocalStrategy } from 'passport-local';
import { Refusal } from '../core/refusal';
import type { CallerRequest, PersonCaller } from '../platform/caller';
import { Database } from '../platform/database';
import { Prisma } from '../platform/prisma-client/client';
import { tooMany, type Tries } from '../platform/try-limit';
import { RequestPipe } from '../platform/validation';
import { isPassword } from './passwords';
import { SignInRequest } from './session.requests';
import { SignInThrottle } from './sign-in-throttle';

type Found = Pick<PersonCaller, 'personId' | 'personName'>;

/** Finds the person whose e-mail and password these are. For an e-mail that nobody has it works as long, and answers the same. */
@Injectable()
export class PasswordStrategy extends PassportStrategy(LocalStrategy, 'password') {
  constructor(private readonly database: Database) {
    super({ usernameField: 'email' });
  }

  async validate(email: string, password: string): Promise<Found | null> {
    const [person] = await this.database.rows<Found & { passwordHash: string }>(Prisma.sql`
      select id as "personId", name as "personName", password_hash as "passwordHash"
      from person where email = ${email.toLowerCase()}`);
    const isRight = await isPassword(password, person?.passwordHash ?? null);
    return isRight && person !== undefined
      ? { personId: person.personId, personName: person.personName }
      : null;
  }
}

/** Lets pass whoever sends the right e-mail and password in the body, as long as they have tries left. */
@Injectable()
export class PasswordGuard extends AuthGuard('password') {
  private readonly form = new RequestPipe();

  constructor(private readonly throttle: SignInThrottle) {
    super();
  }

  override async canActivate(context: ExecutionContext): Promise<boolean> {
    const request = context.switchToHttp().getRequest<CallerRequest>();
    const reply = context.switchToHttp().getResponse<FastifyReply>();
    // Guards run before pipes, and passport's strategy would also read the query: so the form of the body is checked here.
    const { email } = (await this.form.transform(request.body, {
      type: 'body',
      metatype: SignInRequest,
    })) as SignInRequest;

    const attempt = await this.throttle.take(email, request.ip);
    this.tell(reply, attempt.tries);
    if (attempt.waitSeconds !== null) throw tooMany(attempt.waitSeconds);
    await super.canActivate(context);
    this.tell(reply, await attempt.succeed());

    const unsigned = { sessionId: null, tokenId: null, scopes: null };
    Object.assign(request.caller ?? {}, request.user as Found, unsigned);
    return true;
  }

  override handleRequest<Person = Found>(error: unknown, person: Person | false | null): Person {
    if (error instanceof Error) throw error;
    if (person === false || person === null) throw new Refusal('sign-in-failed');
    return person;
  }

  /** Lists of RFC 9651 in the headers of the IETF draft "RateLimit header fields for HTTP". */
  private tell(reply: FastifyReply, { left, secondsToNext }: Tries): void {
    const { name, tries, windowSeconds } = this.throttle.accountAtAddress;
    reply.header('ratelimit-policy', `"${name}";q=${tries};w=${windowSeconds}`);
    reply.header('ratelimit', `"${name}";r=${left};t=${secondsToNext}`);
  }
}
