import { Module } from '@nestjs/common';
import { HeatHistoryController } from './heat-history.controller';
import { HeatHistoryService } from './heat-history.service';
import { ReckoningsController } from './reckonings.controller';
import { ReckoningsService } from './reckonings.service';
import { TemperaturesController } from './temperatures.controller';
import { TemperaturesService } from './temperatures.service';
import { WarmingFitController } from './warming-fit.controller';
import { WarmingFitService } from './warming-fit.service';

@Module({
  controllers: [
    ReckoningsController,
    HeatHistoryController,
    TemperaturesController,
    WarmingFitController,
  ],
  providers: [ReckoningsService, HeatHistoryService, TemperaturesService, WarmingFitService],
})
export class ReckoningsModule {}
