import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { ProbeChange, ProbeRequest } from './probes.requests';
import { ListedProbeResponse, ProbeResponse } from './probes.responses';
import { ProbesService } from './probes.service';

/** The club's temperature probes, in stations and in the honey. */
@ApiTags('probes')
@Controller('clubs/:clubId/probes')
export class ProbesController {
  constructor(private readonly probes: ProbesService) {}

  @Get()
  @Allow('member', 'read')
  @Lists(ListedProbeResponse, 'The club’s probes, by name')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: PageQuery,
  ): Promise<Page<ListedProbeResponse>> {
    return this.probes.list(caller, query);
  }

  @Post()
  @Allow('member', 'record')
  @Creates(ProbeResponse, 'Put a probe into a station or a batch', { refuses: ['duplicate'] })
  putIn(@Caller() caller: ClubCaller, @Body() request: ProbeRequest): Promise<ProbeResponse> {
    return this.probes.putIn(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(ProbeResponse, 'One probe, and where it is and was')
  show(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<ProbeResponse> {
    return this.probes.show(caller, id);
  }

  @Patch(':id')
  @Allow('member', 'record')
  @Changes(ProbeResponse, 'Rename a probe, move it or take it out', 'duplicate')
  change(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() change: ProbeChange,
  ): Promise<ProbeResponse> {
    return this.probes.change(caller, id, change);
  }

  @Delete(':id')
  @Allow('member', 'record')
  @Removes('Strike off a probe that never read anything', { refuses: ['in-use'] })
  strikeOff(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.probes.strikeOff(caller, id);
  }
}
