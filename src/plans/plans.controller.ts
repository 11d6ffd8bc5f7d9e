import { Body, Controller, Get, Param, Post, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { PageQuery, type Page } from '../platform/paging';
import { Acts, Allow, Answers, Creates, Lists } from '../platform/routes';
import { PlanBookings } from './plan-bookings.service';
import { PlanBookingRequest, PlanRequest } from './plans.requests';
import { PlanResponse } from './plans.responses';
import { PlansService } from './plans.service';

/** A whole run through the room, planned and booked with one request. */
@ApiTags('plans')
@Controller('clubs/:clubId/plans')
export class PlansController {
  constructor(
    private readonly plans: PlansService,
    private readonly bookings: PlanBookings,
  ) {}

  @Get()
  @Allow('member', 'read')
  @Lists(PlanResponse, 'The caller’s plans, the newest first; a steward sees all')
  list(@Caller() caller: ClubCaller, @Query() query: PageQuery): Promise<Page<PlanResponse>> {
    return this.plans.list(caller, query);
  }

  @Post()
  @Allow('member', 'book')
  @Creates(
    PlanResponse,
    'Plan a whole run: up to three ways to warm, cool, seed, pot and set; an offer for 30 minutes, which holds no places',
    {
      refuses: ['no-plan', 'not-yours', 'lot-unsuitable', 'not-enough-mass', 'seed-reserved'],
    },
  )
  plan(@Caller() caller: ClubCaller, @Body() request: PlanRequest): Promise<PlanResponse> {
    return this.plans.plan(caller, request);
  }

  @Get(':id')
  @Allow('member', 'read')
  @Answers(PlanResponse, 'One plan, one’s own; a steward sees all', 'not-yours')
  one(@Caller() caller: ClubCaller, @Param('id') id: string): Promise<PlanResponse> {
    return this.plans.one(caller, id);
  }

  @Post(':id/booking')
  @Allow('member', 'book')
  @Acts(
    PlanResponse,
    'Book one alternative whole: all places, the batch, and its seed; or nothing',
    'not-yours',
    'plan-taken',
    'plan-over',
    'fair-share',
  )
  book(
    @Caller() caller: ClubCaller,
    @Param('id') id: string,
    @Body() { alternative }: PlanBookingRequest,
  ): Promise<PlanResponse> {
    return this.bookings.book(caller, id, alternative);
  }
}
