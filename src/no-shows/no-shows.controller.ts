import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Lists } from '../platform/routes';
import { NoShowResponse } from './no-shows.responses';
import { NoShowsService } from './no-shows.service';

/** Running bookings for which nothing came in. Nothing happens to them by itself: their holders or a steward release them. */
@ApiTags('bookings')
@Controller('clubs/:clubId/no-shows')
export class NoShowsController {
  constructor(private readonly noShows: NoShowsService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(NoShowResponse, 'Bookings for which nobody came, in order of their start')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<NoShowResponse>> {
    return this.noShows.list(caller, query);
  }
}
