import { Id, Instant, OneOf, Text } from '../platform/fields';
import { Duty } from '../platform/prisma-client/enums';

export class DutyWindowResponse {
  @Id()
  id!: string;

  @Id()
  stationId!: string;

  @OneOf(Duty, { is: 'The one duty that the station serves then.' })
  duty!: Duty;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @Text({ min: 0, max: 500 })
  note!: string;
}

export interface DutyWindowRow {
  id: string;
  stationId: string;
  duty: Duty;
  startsAt: Date;
  endsAt: Date;
  note: string;
}

export function toDutyWindowResponse(row: DutyWindowRow): DutyWindowResponse {
  return {
    id: row.id,
    stationId: row.stationId,
    duty: row.duty,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    note: row.note,
  };
}
