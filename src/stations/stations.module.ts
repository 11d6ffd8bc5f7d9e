import { Module } from '@nestjs/common';
import { ClosuresController } from './closures.controller';
import { ClosuresService } from './closures.service';
import { DutyWindowsController } from './duty-windows.controller';
import { DutyWindowsService } from './duty-windows.service';
import { StationChanges } from './station-changes.service';
import { StationsController } from './stations.controller';
import { StationsService } from './stations.service';

@Module({
  controllers: [StationsController, ClosuresController, DutyWindowsController],
  providers: [StationsService, StationChanges, ClosuresService, DutyWindowsService],
  exports: [StationsService],
})
export class StationsModule {}
