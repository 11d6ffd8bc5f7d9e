import { Module } from '@nestjs/common';
import { InvitationsController } from './invitations.controller';
import { Invitations } from './invitations.service';

@Module({
  controllers: [InvitationsController],
  providers: [Invitations],
  exports: [Invitations],
})
export class InvitationsModule {}
