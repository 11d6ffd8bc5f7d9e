import { Module } from '@nestjs/common';
import { ClosuresController } from './closures.controller';
import { ClosuresService } from './closures.service';
import { StationsController } from './stations.controller';
import { StationsService } from './stations.service';

@Module({
  controllers: [StationsController, ClosuresController],
  providers: [StationsService, ClosuresService],
  exports: [StationsService],
})
export class StationsModule {}
