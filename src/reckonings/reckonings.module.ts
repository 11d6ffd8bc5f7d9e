import { Module } from '@nestjs/common';
import { HeatHistoryController } from './heat-history.controller';
import { HeatHistoryService } from './heat-history.service';
import { ReckoningsController } from './reckonings.controller';
import { ReckoningsService } from './reckonings.service';
import { TemperaturesController } from './temperatures.controller';
import { TemperaturesService } from './temperatures.service';

@Module({
  controllers: [ReckoningsController, HeatHistoryController, TemperaturesController],
  providers: [ReckoningsService, HeatHistoryService, TemperaturesService],
})
export class ReckoningsModule {}
