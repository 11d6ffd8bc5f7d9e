import { Text, Whole } from '../platform/fields';
import { SomeOf } from '../platform/list-fields';
import { TokenScope } from '../platform/prisma-client/enums';

export class TokenRequest {
  @Text({ max: 100, is: 'What it is for, such as the script that logs the cabinet.' })
  name!: string;

  @SomeOf(TokenScope, { min: 1, is: 'What it may do, of all that its owner may.' })
  scopes!: TokenScope[];

  @Whole({ min: 1, max: 365, optional: true, is: '90 unless told otherwise.' })
  expiresInDays: number = 90;
}
