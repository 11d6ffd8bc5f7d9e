import { Controller, Get } from '@nestjs/common';
import { ApiTags } from '@nestjs/swagger';
import { AllowAnyone, Answers } from '../platform/routes';
import { InstallationResponse } from './installation.responses';
import { Installation } from './installation.service';

/** What whoever stands at the door needs to know. */
@ApiTags('people')
@Controller('installation')
export class InstallationController {
  constructor(private readonly installation: Installation) {}

  @Get()
  @AllowAnyone()
  @Answers(InstallationResponse, 'Whether anybody is here yet, and whether this is the demo')
  show(): Promise<InstallationResponse> {
    return this.installation.show();
  }
}
