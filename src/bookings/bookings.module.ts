import { Module } from '@nestjs/common';
import { StationsModule } from '../stations/stations.module';
import { ArrivalsService } from './arrivals.service';
import { BookingsController } from './bookings.controller';
import { BookingsService } from './bookings.service';

@Module({
  imports: [StationsModule],
  controllers: [BookingsController],
  providers: [BookingsService, ArrivalsService],
})
export class BookingsModule {}
