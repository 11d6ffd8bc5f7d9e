import { Module } from '@nestjs/common';
import { MembersController } from './members.controller';
import { Members } from './members.service';

@Module({ controllers: [MembersController], providers: [Members] })
export class MembersModule {}
