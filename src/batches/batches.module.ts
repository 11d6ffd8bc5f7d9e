import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { BatchMasses } from './batch-masses.service';
import { BatchStepsService } from './batch-steps.service';
import { BatchesController } from './batches.controller';
import { BatchesService } from './batches.service';
import { SettingChecksService } from './setting-checks.service';
import { StrikeOutsService } from './strike-outs.service';
import { TakeBacksService } from './take-backs.service';

@Module({
  imports: [LotsModule],
  controllers: [BatchesController],
  providers: [
    BatchesService,
    BatchMasses,
    BatchStepsService,
    SettingChecksService,
    StrikeOutsService,
    TakeBacksService,
  ],
})
export class BatchesModule {}
