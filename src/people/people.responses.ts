import { Id, Instant, Text, YesNo } from '../platform/fields';

export class PersonResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ max: 254, is: 'Shown to its owner alone.' })
  email!: string;

  @YesNo({ is: 'Whether notices come by e-mail, too.' })
  mailNotices!: boolean;

  @Instant()
  createdAt!: string;
}

export class SignUpResponse extends PersonResponse {
  @Id({ nullable: true, is: 'The club that the invitation led into.' })
  clubId!: string | null;
}

export interface PersonRow {
  id: string;
  name: string;
  email: string;
  mailNotices: boolean;
  createdAt: Date;
}

export function toPersonResponse(row: PersonRow): PersonResponse {
  return {
    id: row.id,
    name: row.name,
    email: row.email,
    mailNotices: row.mailNotices,
    createdAt: row.createdAt.toISOString(),
  };
}
