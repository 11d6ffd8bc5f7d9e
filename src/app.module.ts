import { Module, type DynamicModule } from '@nestjs/common';
import { DiscoveryModule } from '@nestjs/core';
import { BatchesModule } from './batches/batches.module';
import { BookingsModule } from './bookings/bookings.module';
import { AuditModule } from './audit/audit.module';
import { CalculationsModule } from './calculations/calculations.module';
import { CorrectionsModule } from './corrections/corrections.module';
import { ClubsModule } from './clubs/clubs.module';
import { FloralSourcesModule } from './floral-sources/floral-sources.module';
import { HoldsModule } from './holds/holds.module';
import { InstallationModule } from './installation/installation.module';
import { InvitationsModule } from './invitations/invitations.module';
import { MembersModule } from './members/members.module';
import { LabelsModule } from './labels/labels.module';
import { LoansModule } from './loans/loans.module';
import { LotsModule } from './lots/lots.module';
import { OpeningHoursModule } from './opening-hours/opening-hours.module';
import { PeopleModule } from './people/people.module';
import { TokensModule } from './tokens/tokens.module';
import { HealthModule } from './health/health.module';
import { PlansModule } from './plans/plans.module';
import { PlatformModule } from './platform/platform.module';
import { ProbesModule } from './probes/probes.module';
import { SeedShelfModule } from './seed-shelf/seed-shelf.module';
import { SettingForecastModule } from './setting-forecast/setting-forecast.module';
import { SettingTimesModule } from './setting-times/setting-times.module';
import { DiaryModule } from './diary/diary.module';
import { StationsModule } from './stations/stations.module';
import { CalendarModule } from './calendar/calendar.module';
import { JobsModule } from './jobs/jobs.module';
import { NoticesModule } from './notices/notices.module';
import { TodayModule } from './today/today.module';
import { RecallsModule } from './recalls/recalls.module';
import { ReckoningsModule } from './reckonings/reckonings.module';
import { NoShowsModule } from './no-shows/no-shows.module';
import { OverstaysModule } from './overstays/overstays.module';
import { WaitingModule } from './waiting/waiting.module';
import { TracesModule } from './traces/traces.module';
import type { Settings } from './platform/settings';

/** The features of the service. */
@Module({})
export class AppModule {
  static on(databaseUrl: string, settings: Settings): DynamicModule {
    return {
      module: AppModule,
      imports: [
        DiscoveryModule,
        PlatformModule.on(databaseUrl, settings),
        HealthModule,
        InstallationModule,
        PeopleModule,
        TokensModule,
        ClubsModule,
        InvitationsModule,
        MembersModule,
        FloralSourcesModule,
        AuditModule,
        OpeningHoursModule,
        StationsModule,
        BookingsModule,
        DiaryModule,
        WaitingModule,
        NoShowsModule,
        OverstaysModule,
        PlansModule,
        LotsModule,
        TracesModule,
        LabelsModule,
        CorrectionsModule,
        HoldsModule,
        RecallsModule,
        BatchesModule,
        LoansModule,
        SeedShelfModule,
        ProbesModule,
        SettingTimesModule,
        SettingForecastModule,
        CalculationsModule,
        ReckoningsModule,
        TodayModule,
        CalendarModule,
        NoticesModule,
        JobsModule,
      ],
    };
  }
}
