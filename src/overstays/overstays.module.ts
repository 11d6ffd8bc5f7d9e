import { Module } from '@nestjs/common';
import { SettingForecastModule } from '../setting-forecast/setting-forecast.module';
import { OverstaysController } from './overstays.controller';
import { OverstaysService } from './overstays.service';

@Module({
  imports: [SettingForecastModule],
  controllers: [OverstaysController],
  providers: [OverstaysService],
})
export class OverstaysModule {}
