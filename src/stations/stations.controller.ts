import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { FreeQuery, StationChange, StationRequest } from './stations.requests';
import { FreeTimesResponse, StationResponse } from './stations.responses';
import { StationsService } from './stations.service';

/** What a club can book: warming cabinets, cool rooms, benches. */
@ApiTags('stations')
@Controller('clubs/:clubId/stations')
export class StationsController {
  constructor(private readonly stations: StationsService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(StationResponse, 'The club’s stations, by name')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<StationResponse>> {
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
  @Changes(StationResponse, 'Change a station', 'duplicate', 'other-duty')
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() change: StationChange,
  ): Promise<StationResponse> {
    return this.stations.change(caller, id, change);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Remove a station that was never booked', { refuses: ['in-use'] })
  remove(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.stations.remove(caller, id);
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
