import { Id, Instant, OneOf, Text } from '../platform/fields';
import { Role } from '../platform/prisma-client/enums';

export class MemberResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @OneOf(Role)
  role!: Role;

  @Instant({ is: 'For the first time.' })
  joinedAt!: string;

  @Instant({ nullable: true, is: 'Null: in the club.' })
  leftAt!: string | null;
}

export interface MemberRow {
  id: string;
  name: string;
  role: Role;
  joinedAt: Date;
  leftAt: Date | null;
}

export function toMemberResponse(row: MemberRow): MemberResponse {
  return {
    id: row.id,
    name: row.name,
    role: row.role,
    joinedAt: row.joinedAt.toISOString(),
    leftAt: row.leftAt?.toISOString() ?? null,
  };
}
