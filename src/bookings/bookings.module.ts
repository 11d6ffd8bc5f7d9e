import { Module } from '@nestjs/common';
import { StationsModule } from '../stations/stations.module';
import { ArrivalsService } from './arrivals.service';
import { BookingMoves } from './booking-moves.service';
import { BookingsController } from './bookings.controller';
import { BookingsService } from './bookings.service';
import { FairSharesController } from './fair-shares.controller';
import { FairSharesService } from './fair-shares.service';
import { HeldDiaries } from './held-diaries.service';

@Module({
  imports: [StationsModule],
  controllers: [BookingsController, FairSharesController],
  providers: [BookingsService, BookingMoves, HeldDiaries, ArrivalsService, FairSharesService],
})
export class BookingsModule {}
