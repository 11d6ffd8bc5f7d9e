import { Module } from '@nestjs/common';
import { ClubsController } from './clubs.controller';
import { Clubs } from './clubs.service';

@Module({ controllers: [ClubsController], providers: [Clubs] })
export class ClubsModule {}
