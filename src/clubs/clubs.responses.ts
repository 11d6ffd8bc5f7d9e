import { Id, Instant, Text } from '../platform/fields';

export class ClubResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ max: 50, is: 'Of the IANA time zone database: in which the club reads its clock.' })
  timeZone!: string;

  @Instant()
  createdAt!: string;
}

export interface ClubRow {
  id: string;
  name: string;
  timeZone: string;
  createdAt: Date;
}

export function toClubResponse(row: ClubRow): ClubResponse {
  return {
    id: row.id,
    name: row.name,
    timeZone: row.timeZone,
    createdAt: row.createdAt.toISOString(),
  };
}
