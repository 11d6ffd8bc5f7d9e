import { OneOf, Whole } from '../platform/fields';
import { Role } from '../platform/prisma-client/enums';

export class InvitationRequest {
  @OneOf(Role, { optional: true, is: 'What the newcomer will be; member unless told otherwise.' })
  role: Role = Role.member;

  @Whole({ min: 1, max: 30, optional: true, is: '7 unless told otherwise.' })
  expiresInDays: number = 7;
}
