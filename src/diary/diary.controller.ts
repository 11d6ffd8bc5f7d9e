import { Controller, Get, Query } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type ClubCaller } from '../platform/caller';
import { Allow, Answers } from '../platform/routes';
import { DiaryQuery } from './diary.requests';
import { DiaryResponse } from './diary.responses';
import { DiaryService } from './diary.service';

/** Everything that stands in the diary on the door for some days, in one answer: for drawing, and for asking when what is free. */
@ApiTags('bookings')
@Controller('clubs/:clubId/diary')
export class DiaryController {
  constructor(private readonly service: DiaryService) {}

  @Get()
  @Allow('member', 'read')
  @Answers(
    DiaryResponse,
    'The stations, with what is booked, closed and kept for one duty between two times',
    'invalid',
  )
  diary(@Caller() caller: ClubCaller, @Query() query: DiaryQuery): Promise<DiaryResponse> {
    return this.service.diary(caller, query);
  }
}
