import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Lists } from '../platform/routes';
import { FairShareResponse } from './fair-shares.responses';
import { FairSharesService } from './fair-shares.service';

/** How much of the room each member has booked ahead, for all to see. */
@ApiTags('bookings')
@Controller('clubs/:clubId/fair-shares')
export class FairSharesController {
  constructor(private readonly fairShares: FairSharesService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(FairShareResponse, 'The place-days that each member has booked ahead, by name')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<FairShareResponse>> {
    return this.fairShares.list(caller, query);
  }
}
