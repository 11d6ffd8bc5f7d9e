import { Controller, Delete, Get, Param, Post, Query, Req, Res, UseGuards } from '@nestjs/common';
import { ApiBody, ApiTags } from '@nestjs/swagger';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { Caller, type PersonCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, AllowAnyone, Answers, Creates, Lists, Removes } from '../platform/routes';
import { sessionCookie, sessionDays } from '../platform/sign-in';
import { PasswordGuard } from './password.guard';
import { SignInRequest } from './session.requests';
import { OpenSession, SessionResponse } from './session.responses';
import { Sessions } from './session.service';

/** The prefix __Host- stands for the first two of these: a browser refuses the cookie without them. */
const cookieOptions = { secure: true, path: '/', httpOnly: true, sameSite: 'lax' } as const;

/** Signing in and out, and the browsers in which a person is signed in. */
@ApiTags('session')
@Controller()
export class SessionController {
  constructor(private readonly sessions: Sessions) {}

  @Post('session')
  @AllowAnyone()
  @UseGuards(PasswordGuard)
  @ApiBody({ type: SignInRequest })
  @Creates(
    SessionResponse,
    'Sign in: sets the session cookie and ends the session that came with the request. RateLimit headers tell how many failures are left. ' +
      'Each call makes a session of its own; there is nothing that an Idempotency-Key could protect.',
    {
      location: false,
      showsSecret: true,
      takesIdempotencyKey: false,
      refuses: ['sign-in-failed', 'cross-site', 'too-many'],
    },
  )
  async signIn(
    @Caller() caller: PersonCaller,
    @Req() request: FastifyRequest,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<SessionResponse> {
    const { secret, session } = await this.sessions.begin(
      caller,
      request.headers['user-agent'] ?? '',
      request.cookies[sessionCookie],
    );
    reply.setCookie(sessionCookie, secret, { ...cookieOptions, maxAge: sessionDays * 86_400 });
    return session;
  }

  @Get('session')
  @Allow('person', 'read')
  @Answers(SessionResponse, 'Who you are, and the clubs that you are in')
  whoAmI(@Caller() caller: PersonCaller): Promise<SessionResponse> {
    return this.sessions.of(caller);
  }

  @Delete('session')
  @Allow('person', 'session')
  @Removes('Sign out', { needsMatch: false })
  async signOut(
    @Caller() caller: PersonCaller,
    @Res({ passthrough: true }) reply: FastifyReply,
  ): Promise<void> {
    await this.sessions.end(caller, caller.sessionId ?? '');
    reply.clearCookie(sessionCookie, cookieOptions);
  }

  @Get('sessions')
  @Allow('person', 'session')
  @Lists(OpenSession, 'The browsers in which you are signed in, the latest first')
  list(@Caller() caller: PersonCaller, @Query() query: PageQuery): Promise<Page<OpenSession>> {
    return this.sessions.list(caller, query);
  }

  @Delete('sessions/:id')
  @Allow('person', 'session')
  @Removes('End one of your sessions. It has no state that could have changed: no If-Match.', {
    needsMatch: false,
    refuses: ['not-found'],
  })
  end(@Caller() caller: PersonCaller, @Param('id') id: string): Promise<void> {
    return this.sessions.end(caller, id);
  }
}
