import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Lists } from '../platform/routes';
import { OverstayResponse } from './overstays.responses';
import { OverstaysService } from './overstays.service';

/** Honey that stands on its places after the end of its booking. Nobody is moved: this tells what can be done. */
@ApiTags('bookings')
@Controller('clubs/:clubId/overstays')
export class OverstaysController {
  constructor(private readonly overstays: OverstaysService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(OverstayResponse, 'Honey that stands past its end, the longest first')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<OverstayResponse>> {
    return this.overstays.list(caller, query);
  }
}
