import { Module } from '@nestjs/common';
import { PlacedReadingsController } from './placed-readings.controller';
import { ProbesController } from './probes.controller';
import { ProbesService } from './probes.service';
import { ReadingsController } from './readings.controller';
import { ReadingsService } from './readings.service';

@Module({
  controllers: [ProbesController, ReadingsController, PlacedReadingsController],
  providers: [ProbesService, ReadingsService],
})
export class ProbesModule {}
