import { Module } from '@nestjs/common';
import { NoticesModule } from '../notices/notices.module';
import { Jobs } from './jobs.service';

@Module({ imports: [NoticesModule], providers: [Jobs] })
export class JobsModule {}
