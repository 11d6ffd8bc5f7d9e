import { Controller, Get, Param, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Lists } from '../platform/routes';
import { ReadingsQuery } from './readings.requests';
import { ReadingResponse } from './readings.responses';
import { ReadingsService } from './readings.service';

/** What whichever probes were there read in a station or in the honey of a batch. */
@ApiTags('probes')
@Controller('clubs/:clubId')
export class PlacedReadingsController {
  constructor(private readonly readings: ReadingsService) {}

  @Get('stations/:stationId/readings')
  @Allow('member', 'read')
  @Lists(ReadingResponse, 'What the probes in a station read while they were there')
  inStation(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Query() query: ReadingsQuery,
  ): Promise<Page<ReadingResponse>> {
    return this.readings.inStation(caller, stationId, query);
  }

  @Get('batches/:batchId/readings')
  @Allow('member', 'read')
  @Lists(ReadingResponse, 'What the probes in the honey of a batch read while they were there')
  inBatch(
    @Caller() caller: ClubCaller,
    @Param('batchId') batchId: string,
    @Query() query: ReadingsQuery,
  ): Promise<Page<ReadingResponse>> {
    return this.readings.inBatch(caller, batchId, query);
  }
}
