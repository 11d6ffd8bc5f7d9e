import { OneOf } from '../platform/fields';
import { Role } from '../platform/prisma-client/enums';

export class MemberChange {
  @OneOf(Role)
  role!: Role;
}
