import { Text, YesNo } from '../platform/fields';
import { Email, Password } from './account-fields';

export class SignUpRequest {
  @Text({ max: 100 })
  name!: string;

  @Email()
  email!: string;

  @Password({
    is: 'None that is tried first by those who guess, and not made of your name or e-mail.',
    min: 8,
  })
  password!: string;

  @Text({
    max: 40,
    optional: true,
    is: 'From a steward. The first person of an installation needs none.',
    example: '7KQM-2XHD-9RTV-4BNP',
  })
  invitationCode?: string;
}

export class PersonChange {
  @Text({ max: 100, optional: true })
  name?: string;

  @YesNo({ optional: true, is: 'Whether notices come by e-mail, too.' })
  mailNotices?: boolean;
}

export class PasswordChange {
  @Password({ is: 'The one in use.' })
  currentPassword!: string;

  @Password({ is: 'As for signing up.', min: 8 })
  newPassword!: string;
}
