import { Body, Controller, Delete, Get, Ip, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller, type PersonCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Acts, Allow, Answers, Creates, Lists, Removes } from '../platform/routes';
import { InvitationRequest } from './invitations.requests';
import { InvitationResponse, JoinedClub, NewInvitation } from './invitations.responses';
import { Invitations } from './invitations.service';

/** How somebody new comes into a club. */
@ApiTags('invitations')
@Controller()
export class InvitationsController {
  constructor(private readonly invitations: Invitations) {}

  @Post('clubs/:clubId/invitations')
  @Allow('steward', 'steward')
  @Creates(NewInvitation, 'Invite somebody: the code is shown once', { showsSecret: true })
  invite(@Caller() caller: ClubCaller, @Body() request: InvitationRequest): Promise<NewInvitation> {
    return this.invitations.invite(caller, request);
  }

  @Get('clubs/:clubId/invitations')
  @Allow('steward', 'steward')
  @Lists(InvitationResponse, 'All invitations, the latest first')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<InvitationResponse>> {
    return this.invitations.list(caller, query);
  }

  @Get('clubs/:clubId/invitations/:id')
  @Allow('steward', 'steward')
  @Answers(InvitationResponse, 'One of them')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<InvitationResponse> {
    return this.invitations.one(caller, id);
  }

  @Delete('clubs/:clubId/invitations/:id')
  @Allow('steward', 'steward')
  @Removes('Withdraw an invitation that nobody has accepted', { refuses: ['invitation-over'] })
  withdraw(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.invitations.withdraw(caller, id);
  }

  @Post('invitations/:code/acceptance')
  @Allow('person', 'session')
  @Acts(
    JoinedClub,
    'Join the club that the code invites into',
    'not-found',
    'invitation-over',
    'already-member',
    'too-many',
  )
  accept(
    @Caller() caller: PersonCaller,
    @Ip() address: string,
    @Param('code') code: string,
  ): Promise<JoinedClub> {
    return this.invitations.accept(caller, address, code);
  }
}
