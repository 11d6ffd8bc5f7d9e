import { Module } from '@nestjs/common';
import { SettingTimesController } from './setting-times.controller';
import { SettingTimesService } from './setting-times.service';

@Module({ controllers: [SettingTimesController], providers: [SettingTimesService] })
export class SettingTimesModule {}
