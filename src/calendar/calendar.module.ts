import { Module } from '@nestjs/common';
import { CalendarFeedsController } from './calendar-feeds.controller';
import { CalendarFeedsService } from './calendar-feeds.service';
import { CalendarController } from './calendar.controller';
import { CalendarService } from './calendar.service';

@Module({
  controllers: [CalendarController, CalendarFeedsController],
  providers: [CalendarService, CalendarFeedsService],
})
export class CalendarModule {}
