import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { TodayQuery } from './today.requests';
import { TodayResponse } from './today.responses';
import { TodayService } from './today.service';

/** What a member has to do now and next, and where their honey is. */
@ApiTags('today')
@Controller('clubs/:clubId/today')
export class TodayController {
  constructor(private readonly service: TodayService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(
    TodayResponse,
    'What is to be done now and next, with the requests that do it; the honey in the room; what can be taken back',
    'invalid',
  )
  today(@Caller() caller: ClubCaller, @Query() query: TodayQuery): Promise<TodayResponse> {
    return this.service.today(caller, query);
  }
}
