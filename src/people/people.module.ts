import { Module } from '@nestjs/common';
import { InvitationsModule } from '../invitations/invitations.module';
import { PasswordGuard, PasswordStrategy } from './password.guard';
import { PeopleController } from './people.controller';
import { People } from './people.service';
import { SessionController } from './session.controller';
import { Sessions } from './session.service';
import { SignInThrottle } from './sign-in-throttle';

@Module({
  imports: [InvitationsModule],
  controllers: [PeopleController, SessionController],
  providers: [People, Sessions, SignInThrottle, PasswordStrategy, PasswordGuard],
})
export class PeopleModule {}
