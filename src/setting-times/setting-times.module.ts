import { Module } from '@nestjs/common';
import { SettingFits } from './setting-fits';
import { SettingTimesController } from './setting-times.controller';
import { SettingTimesService } from './setting-times.service';

@Module({
  controllers: [SettingTimesController],
  providers: [SettingTimesService, SettingFits],
})
export class SettingTimesModule {}
