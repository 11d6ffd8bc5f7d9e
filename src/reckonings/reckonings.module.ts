import { Module } from '@nestjs/common';
import { HeatHistoryController } from './heat-history.controller';
import { HeatHistoryService } from './heat-history.service';
import { ReckoningsController } from './reckonings.controller';
import { ReckoningsService } from './reckonings.service';

@Module({
  controllers: [ReckoningsController, HeatHistoryController],
  providers: [ReckoningsService, HeatHistoryService],
})
export class ReckoningsModule {}
