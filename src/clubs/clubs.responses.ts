import { Id, Instant, Text, Whole } from '../platform/fields';

export class ClubResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ max: 50, is: 'Of the IANA time zone database: in which the club reads its clock.' })
  timeZone!: string;

  @Whole({ min: 15, max: 20160, is: 'How long a freed time is kept for the first in line.' })
  offerMinutes!: number;

  @Whole({ min: 15, max: 20160, is: 'How long after its start a booking without honey is listed.' })
  noShowMinutes!: number;

  @Instant()
  createdAt!: string;
}

export interface ClubRow {
  id: string;
  name: string;
  timeZone: string;
  offerMinutes: number;
  noShowMinutes: number;
  createdAt: Date;
}

export function toClubResponse(row: ClubRow): ClubResponse {
  return {
    id: row.id,
    name: row.name,
    timeZone: row.timeZone,
    offerMinutes: row.offerMinutes,
    noShowMinutes: row.noShowMinutes,
    createdAt: row.createdAt.toISOString(),
  };
}
