import { Module } from '@nestjs/common';
import { ClosedDaysController } from './closed-days.controller';
import { ClosedDaysService } from './closed-days.service';
import { OpeningHoursController } from './opening-hours.controller';
import { OpeningHoursService } from './opening-hours.service';

@Module({
  controllers: [OpeningHoursController, ClosedDaysController],
  providers: [OpeningHoursService, ClosedDaysService],
})
export class OpeningHoursModule {}
