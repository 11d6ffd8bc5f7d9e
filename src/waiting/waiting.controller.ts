import { Body, Controller, Delete, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Acts, Allow, Answers, Creates, Lists, Removes } from '../platform/routes';
import { WaitingQuery, WaitingWishRequest } from './waiting.requests';
import { WaitingWishResponse } from './waiting.responses';
import { WaitingService } from './waiting.service';

/** Who waits for places when the room is full, in the order in which they asked. */
@ApiTags('waiting list')
@Controller('clubs/:clubId/waiting-list')
export class WaitingController {
  constructor(private readonly waiting: WaitingService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(WaitingWishResponse, 'Who waits, the first in line first')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: WaitingQuery,
  ): Promise<Page<WaitingWishResponse>> {
    return this.waiting.list(caller, query);
  }

  @Post()
  @Allow('member', 'book')
  @Creates(WaitingWishResponse, 'Wait for places that are not free yet', { refuses: ['free-now'] })
  wait(
    @Caller() caller: ClubCaller,
    @Body() request: WaitingWishRequest,
  ): Promise<WaitingWishResponse> {
    return this.waiting.wait(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(WaitingWishResponse, 'One wish, and what is kept for it')
  show(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<WaitingWishResponse> {
    return this.waiting.show(caller, id);
  }

  @Delete(':id')
  @Allow('member', 'book')
  @Removes('Wait no longer; what is kept goes to the next in line', {
    refuses: ['not-yours', 'wish-over'],
  })
  withdraw(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.waiting.withdraw(caller, id);
  }

  @Post(':id/acceptance')
  @Allow('member', 'book')
  @Acts(WaitingWishResponse, 'Take what is kept', 'not-yours', 'nothing-offered', 'fair-share')
  take(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<WaitingWishResponse> {
    return this.waiting.take(caller, id);
  }
}
