import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Creates, Lists, Removes } from '../platform/routes';
import { ClosedDaysService } from './closed-days.service';
import { ClosedDayQuery, ClosedDayRequest } from './opening-hours.requests';
import { ClosedDayResponse } from './opening-hours.responses';

/** Days on which nobody comes in, whatever the hours of the week. */
@ApiTags('opening hours')
@Controller('clubs/:clubId/closed-days')
export class ClosedDaysController {
  constructor(private readonly closedDays: ClosedDaysService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(ClosedDayResponse, 'Days on which the room stays closed, in order')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: ClosedDayQuery,
  ): Promise<Page<ClosedDayResponse>> {
    return this.closedDays.list(caller, query);
  }

  @Post()
  @Allow('steward', 'steward')
  @Creates(ClosedDayResponse, 'Keep the room closed for a day; bookings on record stay', {
    refuses: ['duplicate'],
  })
  close(
    @Caller() caller: ClubCaller,
    @Body() request: ClosedDayRequest,
  ): Promise<ClosedDayResponse> {
    return this.closedDays.close(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(ClosedDayResponse, 'One closed day')
  show(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<ClosedDayResponse> {
    return this.closedDays.show(caller, id);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Open on that day again')
  reopen(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.closedDays.reopen(caller, id);
  }
}
