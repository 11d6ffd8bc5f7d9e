import { Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Acts, Allow, Answers, Lists } from '../platform/routes';
import { NoticesQuery } from './notices.requests';
import { NoticeResponse, NoticesRead } from './notices.responses';
import { NoticesService } from './notices.service';

/** What a member should know. */
@ApiTags('notices')
@Controller('clubs/:clubId/notices')
export class NoticesController {
  constructor(private readonly notices: NoticesService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(NoticeResponse, 'What you were told, the newest first')
  list(@Caller() caller: ClubCaller, @Query() query: NoticesQuery): Promise<Page<NoticeResponse>> {
    return this.notices.list(caller, query);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(NoticeResponse, 'One of them')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<NoticeResponse> {
    return this.notices.one(caller, id);
  }

  @Post('all/read')
  @Allow('member', 'record')
  @Acts(NoticesRead, 'You have read all of them')
  readAll(@Caller() caller: ClubCaller): Promise<NoticesRead> {
    return this.notices.readAll(caller);
  }

  @Post(':id/read')
  @Allow('member', 'record')
  @Acts(NoticeResponse, 'You have read it; reading it again changes nothing')
  read(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<NoticeResponse> {
    return this.notices.read(caller, id);
  }
}
