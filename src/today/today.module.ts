import { Module } from '@nestjs/common';
import { SettingForecastModule } from '../setting-forecast/setting-forecast.module';
import { TodayController } from './today.controller';
import { TodayService } from './today.service';

@Module({
  imports: [SettingForecastModule],
  controllers: [TodayController],
  providers: [TodayService],
})
export class TodayModule {}
