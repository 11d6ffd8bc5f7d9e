import { Body, Controller, Delete, Get, Param, Patch, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Lists, Removes } from '../platform/routes';
import { MemberChange } from './members.requests';
import { MemberResponse } from './members.responses';
import { Members } from './members.service';

/** Who is in the club, and who was: lots and batches go on naming those who left. */
@ApiTags('members')
@Controller('clubs/:clubId/members')
export class MembersController {
  constructor(private readonly members: Members) {}

  @Get()
  @Allow('member', 'read')
  @Lists(MemberResponse, 'All members, in the order in which they joined')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<MemberResponse>> {
    return this.members.list(caller, query);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(MemberResponse, 'One of them')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<MemberResponse> {
    return this.members.one(caller, id);
  }

  @Patch(':id')
  @Allow('steward', 'steward')
  @Changes(MemberResponse, 'Make a member a steward, or a steward a member', 'last-steward')
  changeRole(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: MemberChange,
  ): Promise<MemberResponse> {
    return this.members.changeRole(caller, id, request);
  }

  @Delete(':id')
  @Allow('member', 'steward')
  @Removes('Leave the club, or as a steward remove somebody from it', {
    refuses: ['not-yours', 'last-steward'],
  })
  leave(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.members.leave(caller, id);
  }
}
