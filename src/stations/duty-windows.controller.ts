import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import type { Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { DutyWindowChange, DutyWindowQuery, DutyWindowRequest } from './duty-windows.requests';
import { DutyWindowResponse } from './duty-windows.responses';
import { DutyWindowsService } from './duty-windows.service';

/** Times in which a station serves one of its duties and no other: cooling over the summer. */
@ApiTags('stations')
@Controller('clubs/:clubId/stations/:stationId/duty-windows')
export class DutyWindowsController {
  constructor(private readonly windows: DutyWindowsService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(DutyWindowResponse, 'A station’s duty windows, in order of time')
  list(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Query() query: DutyWindowQuery,
  ): Promise<Page<DutyWindowResponse>> {
    return this.windows.list(caller, stationId, query);
  }

  @Post()
  @Allow('steward', 'steward')
  @Creates(DutyWindowResponse, 'Keep a station for one duty', { refuses: ['station-booked'] })
  set(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Body() request: DutyWindowRequest,
  ): Promise<DutyWindowResponse> {
    return this.windows.set(caller, stationId, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(DutyWindowResponse, 'One duty window')
  show(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
  ): Promise<DutyWindowResponse> {
    return this.windows.show(caller, stationId, id);
  }

  @Patch(':id')
  @Allow('steward', 'steward')
  @Changes(DutyWindowResponse, 'Change a duty window', 'station-booked')
  change(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
    @Body() change: DutyWindowChange,
  ): Promise<DutyWindowResponse> {
    return this.windows.change(caller, stationId, id, change);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Let the station serve all its duties again')
  remove(
    @Caller() caller: ClubCaller,
    @Param('stationId') stationId: string,
    @Param('id') id: string,
  ): Promise<void> {
    return this.windows.remove(caller, stationId, id);
  }
}
