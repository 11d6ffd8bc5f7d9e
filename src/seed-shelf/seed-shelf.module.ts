import { Module } from '@nestjs/common';
import { FittingSeedService } from './fitting-seed.service';
import { SeedShelfController } from './seed-shelf.controller';
import { SeedShelfService } from './seed-shelf.service';

@Module({
  controllers: [SeedShelfController],
  providers: [SeedShelfService, FittingSeedService],
})
export class SeedShelfModule {}
