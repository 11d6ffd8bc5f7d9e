import { Body, Controller, Get, Put } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers, Changes } from '../platform/routes';
import { OpeningHoursRequest } from './opening-hours.requests';
import { OpeningHoursResponse } from './opening-hours.responses';
import { OpeningHoursService } from './opening-hours.service';

/** When people may come into the room, week by week. */
@ApiTags('opening hours')
@Controller('clubs/:clubId/opening-hours')
export class OpeningHoursController {
  constructor(private readonly openingHours: OpeningHoursService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(OpeningHoursResponse, 'The hours of the week at which the room is open')
  show(@Caller() caller: ClubCaller): Promise<OpeningHoursResponse> {
    return this.openingHours.show(caller);
  }

  @Put()
  @Allow('steward', 'steward')
  @Changes(OpeningHoursResponse, 'Set the hours of the whole week; bookings on record stay')
  set(
    @Caller() caller: ClubCaller,
    @Body() request: OpeningHoursRequest,
  ): Promise<OpeningHoursResponse> {
    return this.openingHours.set(caller, request);
  }
}
