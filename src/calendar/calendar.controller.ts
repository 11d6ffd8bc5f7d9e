import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { AnswersCalendar } from '../platform/file-answers';
import { Allow, AllowFeed } from '../platform/routes';
import { CalendarQuery } from './calendar.requests';
import { CalendarService } from './calendar.service';

/** The club’s diary for calendar programs. */
@ApiTags('calendar')
@Controller('clubs/:clubId')
export class CalendarController {
  constructor(private readonly service: CalendarService) {}

  @Get('calendar.ics')
  @Allow('member', 'read')
  @AllowFeed()
  @AnswersCalendar(
    'Bookings, when hands are needed, closures and closed days; also under the address of a feed, without signing in',
    'creaming-room.ics',
    'invalid',
  )
  calendar(@Caller() caller: ClubCaller, @Query() query: CalendarQuery): Promise<string> {
    return this.service.calendar(caller, query);
  }
}
