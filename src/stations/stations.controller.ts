import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { StationChanges } from './station-changes.service';
import { FreeQuery, StationChange, StationQuery, StationRequest } from './stations.requests';
import { FreeTimesResponse, StationResponse } from './stations.responses';
import { StationsService } from './stations.service';

/** What a club can book: warming cabinets, cool rooms, benches. */
@ApiTags('stations')
@Controller('clubs/:clubId/stations')
export class StationsController {
  constructor(
    private readonly stations: StationsService,
    private readonly changes: StationChanges,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(StationResponse, 'The club’s stations in use, by name')
  list(@Caller() caller: ClubCaller, @Query() query: StationQuery): Promise<Page<StationResponse>> {
    return this.stations.list(caller, query);
  }

  @Post()
  @Allow('steward', 'steward')
  @Creates(StationResponse, 'Set up a station', { refuses: ['duplicate'] })
  setUp(@Caller() caller: ClubCaller, @Body() request: StationRequest): Promise<StationResponse> {
    return this.stations.setUp(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(StationResponse, 'One station')
  show(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<StationResponse> {
    return this.stations.show(caller, id);
  }

  @Patch(':id')
  @Allow('steward', 'steward')
  @Changes(StationResponse, 'Change a station', 'duplicate', 'other-duty', 'still-needed')
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() change: StationChange,
  ): Promise<StationResponse> {
    return this.changes.change(caller, id, change);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Remove a station that has no history', { refuses: ['in-use'] })
  remove(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.changes.remove(caller, id);
  }

  @Get(':id/free')
  @Allow('member', 'read')
  @Answers(FreeTimesResponse, 'When so many places are free for so long', 'invalid')
  free(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Query() query: FreeQuery,
  ): Promise<FreeTimesResponse> {
    return this.stations.free(caller, id, query);
  }
}
