import { OneOf, Part, Text, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Role } from '../platform/prisma-client/enums';

export class DemoAccount {
  @Text({ max: 100 })
  name!: string;

  @Text({ max: 254, is: 'To sign in with.' })
  email!: string;

  @OneOf(Role)
  role!: Role;
}

export class Demo {
  @Text({ max: 100 })
  clubName!: string;

  @Text({ max: 200, is: 'Every account of the demo has it.' })
  password!: string;

  @Each(() => DemoAccount, { max: 100, is: 'Invented people; those who have signed up so far.' })
  accounts!: DemoAccount[];
}

export class InstallationResponse {
  @YesNo({ is: 'Whether nobody has signed up yet: whoever comes first needs no invitation.' })
  isEmpty!: boolean;

  @Part(() => Demo, {
    nullable: true,
    is: 'As whom to look around, where this is the demo (npm run demo); null: it is not.',
  })
  demo!: Demo | null;
}
