import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { LabelSettingsController } from './label-settings.controller';
import { LabelSettingsService } from './label-settings.service';
import { LabelsController } from './labels.controller';
import { LabelsService } from './labels.service';

@Module({
  imports: [LotsModule],
  controllers: [LabelSettingsController, LabelsController],
  providers: [LabelSettingsService, LabelsService],
})
export class LabelsModule {}
