import { Module } from '@nestjs/common';
import { RecallDrillsService } from './recall-drills.service';
import { RecallsController } from './recalls.controller';
import { RecallsService } from './recalls.service';

@Module({
  controllers: [RecallsController],
  providers: [RecallsService, RecallDrillsService],
})
export class RecallsModule {}
