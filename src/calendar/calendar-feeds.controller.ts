import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Creates, Lists, Removes } from '../platform/routes';
import { CalendarFeedResponse, NewCalendarFeed } from './calendar-feeds.responses';
import { CalendarFeedsService } from './calendar-feeds.service';
import { CalendarFeedRequest } from './calendar.requests';

/** Secret addresses under which calendar programs read the calendar. They are looked after in a session only. */
@ApiTags('calendar')
@Controller('clubs/:clubId/calendar-feeds')
export class CalendarFeedsController {
  constructor(private readonly feeds: CalendarFeedsService) {}

  @Get()
  @Allow('member', 'session')
  @Lists(CalendarFeedResponse, 'Your feeds, the latest first')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: PageQuery,
  ): Promise<Page<CalendarFeedResponse>> {
    return this.feeds.list(caller, query);
  }

  @Post()
  @Allow('member', 'session')
  @Creates(NewCalendarFeed, 'Make a feed: its address is shown once', { showsSecret: true })
  make(
    @Caller() caller: ClubCaller,
    @Body() request: CalendarFeedRequest,
  ): Promise<NewCalendarFeed> {
    return this.feeds.make(caller, request);
  }

  @Get(':id')
  @Allow('member', 'session')
  @Answers(CalendarFeedResponse, 'One of them')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<CalendarFeedResponse> {
    return this.feeds.one(caller, id);
  }

  @Delete(':id')
  @Allow('member', 'session')
  @Removes('Remove a feed: its address opens nothing from then on')
  remove(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.feeds.remove(caller, id);
  }
}
