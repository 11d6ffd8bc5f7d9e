import { Module } from '@nestjs/common';
import { ForecastFits } from './forecast-fits';
import { SettingForecastController } from './setting-forecast.controller';
import { SettingForecastService } from './setting-forecast.service';

@Module({
  controllers: [SettingForecastController],
  providers: [SettingForecastService, ForecastFits],
  exports: [SettingForecastService],
})
export class SettingForecastModule {}
