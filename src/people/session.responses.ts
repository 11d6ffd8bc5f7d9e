import { Id, Instant, OneOf, Text, YesNo } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Role } from '../platform/prisma-client/enums';

export class Membership {
  @Id()
  clubId!: string;

  @Text({ max: 100 })
  clubName!: string;

  @Id({ is: 'Under which the club knows you.' })
  memberId!: string;

  @OneOf(Role)
  role!: Role;
}

export class SessionResponse {
  @Id()
  id!: string;

  @OneOf(['session', 'token'], { is: 'What the request was signed in with.' })
  kind!: 'session' | 'token';

  @Id()
  personId!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ max: 254 })
  email!: string;

  @Instant()
  createdAt!: string;

  @Instant({ is: 'The latest end. A session that nobody uses for 14 days ends before.' })
  expiresAt!: string;

  @Each(() => Membership, { max: 1000 })
  clubs!: Membership[];
}

export interface SessionRow {
  id: string;
  kind: 'session' | 'token';
  personId: string;
  name: string;
  email: string;
  createdAt: Date;
  expiresAt: Date;
  clubs: Membership[];
}

export function toSessionResponse(row: SessionRow): SessionResponse {
  return {
    id: row.id,
    kind: row.kind,
    personId: row.personId,
    name: row.name,
    email: row.email,
    createdAt: row.createdAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    clubs: row.clubs.map(({ clubId, clubName, memberId, role }) => ({
      clubId,
      clubName,
      memberId,
      role,
    })),
  };
}

export class OpenSession {
  @Id()
  id!: string;

  @Text({ min: 0, max: 200, is: 'What the browser called itself.' })
  device!: string;

  @Instant()
  createdAt!: string;

  @Instant({ is: 'To the minute.' })
  lastUsedAt!: string;

  @YesNo({ is: 'Whether this request came with it.' })
  isThisOne!: boolean;
}

export interface OpenSessionRow {
  id: string;
  device: string;
  createdAt: Date;
  lastUsedAt: Date;
  isThisOne: boolean;
}

export function toOpenSession(row: OpenSessionRow): OpenSession {
  return {
    id: row.id,
    device: row.device,
    createdAt: row.createdAt.toISOString(),
    lastUsedAt: row.lastUsedAt.toISOString(),
    isThisOne: row.isThisOne,
  };
}
