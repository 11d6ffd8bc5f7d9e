import { Module } from '@nestjs/common';
import { LotsModule } from '../lots/lots.module';
import { SettingForecastModule } from '../setting-forecast/setting-forecast.module';
import { PlanBookings } from './plan-bookings.service';
import { PlanDrafts } from './plan-drafts.service';
import { PlansController } from './plans.controller';
import { PlansService } from './plans.service';

@Module({
  imports: [LotsModule, SettingForecastModule],
  controllers: [PlansController],
  providers: [PlansService, PlanDrafts, PlanBookings],
})
export class PlansModule {}
