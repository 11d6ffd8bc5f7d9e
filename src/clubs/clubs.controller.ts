import { Body, Controller, Get, Patch, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller, type PersonCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Allow, Answers, Changes, Creates, Lists } from '../platform/routes';
import { ClubChange, ClubRequest } from './clubs.requests';
import { ClubResponse } from './clubs.responses';
import { Clubs } from './clubs.service';

/** The groups that share a creaming room. */
@ApiTags('clubs')
@Controller('clubs')
export class ClubsController {
  constructor(private readonly clubs: Clubs) {}

  @Post()
  @Allow('person', 'steward')
  @Creates(ClubResponse, 'Found a club; you become its steward')
  found(@Caller() caller: PersonCaller, @Body() request: ClubRequest): Promise<ClubResponse> {
    return this.clubs.found(caller, request);
  }

  @Get()
  @Allow('person', 'read')
  @Lists(ClubResponse, 'The clubs that you are in, by name')
  list(@Caller() caller: PersonCaller, @Query() query: PageQuery): Promise<Page<ClubResponse>> {
    return this.clubs.list(caller, query);
  }

  @Get(':clubId')
  @Allow('member', 'read')
  @Answers(ClubResponse, 'One of them')
  one(@Caller() caller: ClubCaller): Promise<ClubResponse> {
    return this.clubs.one(caller);
  }

  @Patch(':clubId')
  @Allow('steward', 'steward')
  @Changes(ClubResponse, 'Change the name, the time zone, or how the room is shared')
  change(@Caller() caller: ClubCaller, @Body() request: ClubChange): Promise<ClubResponse> {
    return this.clubs.change(caller, request);
  }
}
