import { Global, Module, type DynamicModule } from '@nestjs/common';
import { APP_FILTER, APP_GUARD, APP_INTERCEPTOR, APP_PIPE } from '@nestjs/core';
import { AllowGuard } from './allow.guard';
import { AnswerInterceptor } from './answer.interceptor';
import { Clock } from './clock';
import { Database } from './database';
import { ProblemFilter } from './problem';
import { FeedStrategy, SessionStrategy, SignIn, TokenStrategy } from './sign-in';
import { settingsToken, type Settings } from './settings';
import { RequestPipe } from './validation';

/** What every feature stands on. */
@Global()
@Module({})
export class PlatformModule {
  static on(databaseUrl: string, settings: Settings): DynamicModule {
    return {
      module: PlatformModule,
      providers: [
        Clock,
        SignIn,
        SessionStrategy,
        TokenStrategy,
        FeedStrategy,
        { provide: settingsToken, useValue: settings },
        { provide: Database, useFactory: () => new Database(databaseUrl, settings) },
        { provide: APP_GUARD, useClass: AllowGuard },
        { provide: APP_INTERCEPTOR, useClass: AnswerInterceptor },
        { provide: APP_PIPE, useClass: RequestPipe },
        { provide: APP_FILTER, useClass: ProblemFilter },
      ],
      exports: [Clock, Database, settingsToken],
    };
  }
}
