import { Module } from '@nestjs/common';
import { FloralSourcesController } from './floral-sources.controller';
import { FloralSources } from './floral-sources.service';

@Module({ controllers: [FloralSourcesController], providers: [FloralSources] })
export class FloralSourcesModule {}
