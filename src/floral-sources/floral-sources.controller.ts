import { Body, Controller, Delete, Get, Param, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists, Removes } from '../platform/routes';
import { FloralSourceChange, FloralSourceRequest } from './floral-sources.requests';
import { FloralSourceResponse } from './floral-sources.responses';
import { FloralSources } from './floral-sources.service';

/** What the bees of the club work, and how such honey sets. */
@ApiTags('floral sources')
@Controller('clubs/:clubId/floral-sources')
export class FloralSourcesController {
  constructor(private readonly floralSources: FloralSources) {}

  @Post()
  @Allow('steward', 'steward')
  @Creates(FloralSourceResponse, 'Enter a floral source', { refuses: ['duplicate'] })
  enter(
    @Caller() caller: ClubCaller,
    @Body() request: FloralSourceRequest,
  ): Promise<FloralSourceResponse> {
    return this.floralSources.enter(caller, request);
  }

  @Get()
  @Allow('member', 'read')
  @Lists(FloralSourceResponse, 'All floral sources, by name')
  list(
    @Caller() caller: ClubCaller,
    @Query() query: PageQuery,
  ): Promise<Page<FloralSourceResponse>> {
    return this.floralSources.list(caller, query);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(FloralSourceResponse, 'One of them')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<FloralSourceResponse> {
    return this.floralSources.one(caller, id);
  }

  @Patch(':id')
  @Allow('steward', 'steward')
  @Changes(FloralSourceResponse, 'Correct a floral source', 'duplicate')
  correct(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() request: FloralSourceChange,
  ): Promise<FloralSourceResponse> {
    return this.floralSources.correct(caller, id, request);
  }

  @Delete(':id')
  @Allow('steward', 'steward')
  @Removes('Strike off a floral source that no lot names', { refuses: ['in-use'] })
  strikeOff(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<void> {
    return this.floralSources.strikeOff(caller, id);
  }
}
