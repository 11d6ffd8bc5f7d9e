import { Id, Instant, OneOf, Text } from '../platform/fields';
import { Role } from '../platform/prisma-client/enums';

export class InvitationResponse {
  @Id()
  id!: string;

  @OneOf(Role)
  role!: Role;

  @Id({ is: 'The steward who invites.' })
  invitedById!: string;

  @Instant()
  createdAt!: string;

  @Instant({ is: 'From then on nobody can accept it.' })
  expiresAt!: string;

  @Instant({ nullable: true })
  acceptedAt!: string | null;

  @Id({ nullable: true, is: 'The member who came of it.' })
  acceptedById!: string | null;
}

export class NewInvitation extends InvitationResponse {
  @Text({
    max: 19,
    is: 'Shown this once. Whoever knows it can join.',
    example: '7KQM-2XHD-9RTV-4BNP',
  })
  code!: string;
}

export class JoinedClub {
  @Id()
  clubId!: string;

  @Text({ max: 100 })
  clubName!: string;

  @Id()
  memberId!: string;

  @OneOf(Role)
  role!: Role;
}

export interface InvitationRow {
  id: string;
  role: Role;
  invitedById: string;
  createdAt: Date;
  expiresAt: Date;
  acceptedAt: Date | null;
  acceptedById: string | null;
}

export function toInvitationResponse(row: InvitationRow): InvitationResponse {
  return {
    id: row.id,
    role: row.role,
    invitedById: row.invitedById,
    createdAt: row.createdAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    acceptedAt: row.acceptedAt?.toISOString() ?? null,
    acceptedById: row.acceptedById,
  };
}
