import { Body, Controller, Get, Ip, Patch, Post } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { Caller, type AnyCaller, type PersonCaller } from '../platform/caller';
import { Acts, Allow, AllowAnyone, Answers, Changes, Creates } from '../platform/routes';
import { PasswordChange, PersonChange, SignUpRequest } from './people.requests';
import { PersonResponse, SignUpResponse } from './people.responses';
import { People } from './people.service';

/** Accounts: signing up, and what a person changes about their own. */
@ApiTags('people')
@Controller('people')
export class PeopleController {
  constructor(private readonly people: People) {}

  @Post()
  @AllowAnyone()
  @Creates(SignUpResponse, 'Sign up, and join the club that the invitation is for', {
    location: false,
    refuses: ['not-allowed', 'cross-site', 'duplicate', 'too-many'],
  })
  signUp(
    @Caller() caller: AnyCaller,
    @Ip() address: string,
    @Body() request: SignUpRequest,
  ): Promise<SignUpResponse> {
    return this.people.signUp(caller, address, request);
  }

  @Get('me')
  @Allow('person', 'read')
  @Answers(PersonResponse, 'Your account')
  me(@Caller() caller: PersonCaller): Promise<PersonResponse> {
    return this.people.account(caller);
  }

  @Patch('me')
  @Allow('person', 'session')
  @Changes(PersonResponse, 'Change your name, or whether notices are mailed to you')
  changeMe(@Caller() caller: PersonCaller, @Body() request: PersonChange): Promise<PersonResponse> {
    return this.people.change(caller, request);
  }

  @Post('me/password')
  @Allow('person', 'session')
  @Acts(PersonResponse, 'Change your password; all other sessions of yours end', 'too-many')
  changePassword(
    @Caller() caller: PersonCaller,
    @Body() request: PasswordChange,
  ): Promise<PersonResponse> {
    return this.people.changePassword(caller, request);
  }
}
