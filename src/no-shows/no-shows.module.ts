import { Module } from '@nestjs/common';
import { NoShowsController } from './no-shows.controller';
import { NoShowsService } from './no-shows.service';

@Module({ controllers: [NoShowsController], providers: [NoShowsService] })
export class NoShowsModule {}
