import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { ClosuresService } from './closures.service';
import { ClosureChange, ClosureQuery, ClosureRequest } from './stations.requests';
import { ClosureMadeResponse, ClosureResponse } from './stations.responses';

/** Times when a station is out of use: cleaning, repair. */
@ApiTags('stations')
@Controller('clubs/:clubId/stations/:stationId/closures')
export class ClosuresController {
  constructor(private readonly closures: ClosuresService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(ClosureResponse, 'A station’s closures, in order of time')
  list(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Query() query: ClosureQuery,
  ): Promise<Page<ClosureResponse>> {
    return this.closures.list(caller, stationId, query);
  }

  @Post()
  @Allow('steward', 'steward')
  @Creates(ClosureMadeResponse, 'Close a station for a time', { refuses: ['station-booked'] })
  close(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Body() request: ClosureRequest,
  ): Promise<ClosureMadeResponse> {
    return this.closures.close(caller, stationId, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(ClosureResponse, 'One closure')
  show(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
  ): Promise<ClosureResponse> {
    return this.closures.show(caller, stationId, id);
  }

  @Patch(':id')
  @Allow('steward', 'steward')
  @Changes(ClosureResponse, 'Change a closure', 'station-booked')
  change(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
    @Body() change: ClosureChange,
  ): Promise<ClosureResponse> {
    return this.closures.change(caller, stationId, id, change);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Open the station again')
  reopen(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
  ): Promise<void> {
    return this.closures.reopen(caller, stationId, id);
  }
}
