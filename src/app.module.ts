import { Module, type DynamicModule } from '@nestjs/common';
import { DiscoveryModule } from '@nestjs/core';
import { HealthModule } from './health/health.module';
import { PlatformModule } from './platform/platform.module';
import type { Settings } from './platform/settings';

/** The features of the service. */
@Module({})
export class AppModule {
  static on(databaseUrl: string, settings: Settings): DynamicModule {
    return {
      module: AppModule,
      imports: [DiscoveryModule, PlatformModule.on(databaseUrl, settings), HealthModule],
    };
  }
}
