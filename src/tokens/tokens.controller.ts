import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type PersonCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Creates, Lists, Removes } from '../platform/routes';
import { TokenRequest } from './tokens.requests';
import { NewToken, TokenResponse } from './tokens.responses';
import { Tokens } from './tokens.service';

/** Personal access tokens, with which scripts sign in. They are looked after in a session only. */
@ApiTags('tokens')
@Controller('tokens')
export class TokensController {
  constructor(private readonly tokens: Tokens) {}

  @Post()
  @Allow('person', 'session')
  @Creates(NewToken, 'Make a token: it is shown once', { showsSecret: true })
  make(@Caller() caller: PersonCaller, @Body() request: TokenRequest): Promise<NewToken> {
    return this.tokens.make(caller, request);
  }

  @Get()
  @Allow('person', 'session')
  @Lists(TokenResponse, 'Your tokens, the latest first')
  list(@Caller() caller: PersonCaller, @Query() query: PageQuery): Promise<Page<TokenResponse>> {
    return this.tokens.list(caller, query);
  }

  @Get(':id')
  @Allow('person', 'session')
  @Answers(TokenResponse, 'One of them', 'not-found')
  one(@Caller() caller: PersonCaller, @Param('id') id: string): Promise<TokenResponse> {
    return this.tokens.one(caller, id);
  }

  @Delete(':id')
  @Allow('person', 'session')
  @Removes('Remove a token: it ends at once', { refuses: ['not-found'] })
  remove(@Caller() caller: PersonCaller, @Param('id') id: string): Promise<void> {
    return this.tokens.remove(caller, id);
  }
}
