import { Id, Instant, Text, Whole } from '../platform/fields';

export class ClubResponse {
  @Id()
  id!: string;

  @Text({ max: 100 })
  name!: string;

  @Text({ max: 50, is: 'Of the IANA time zone database: in which the club reads its clock.' })
  timeZone!: string;

  @Whole({
    min: 1,
    max: 100_000,
    nullable: true,
    is: 'The place-days that each member may have booked ahead. Null: no limit.',
  })
  placeDaysAhead!: number | null;

  @Whole({
    min: 15,
    max: 20_160,
    is: 'How long a freed time is kept for the first on the waiting list.',
  })
  offerMinutes!: number;

  @Whole({
    min: 15,
    max: 20_160,
    is: 'How long after its start a booking without an arrival counts as not turned up.',
  })
  noShowMinutes!: number;

  @Instant()
  createdAt!: string;
}

export interface ClubRow {
  id: string;
  name: string;
  timeZone: string;
  placeDaysAhead: number | null;
  offerMinutes: number;
  noShowMinutes: number;
  createdAt: Date;
}

export function toClubResponse(row: ClubRow): ClubResponse {
  return {
    id: row.id,
    name: row.name,
    timeZone: row.timeZone,
    placeDaysAhead: row.placeDaysAhead,
    offerMinutes: row.offerMinutes,
    noShowMinutes: row.noShowMinutes,
    createdAt: row.createdAt.toISOString(),
  };
}
