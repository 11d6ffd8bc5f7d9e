import { Module } from '@nestjs/common';
import { StationsModule } from '../stations/stations.module';
import { WaitingController } from './waiting.controller';
import { WaitingService } from './waiting.service';

@Module({
  imports: [StationsModule],
  controllers: [WaitingController],
  providers: [WaitingService],
})
export class WaitingModule {}
