import { Id, Instant, OneOf, Text } from '../platform/fields';
import { Duty } from '../platform/prisma-client/enums';
import type { NoShowRow } from './no-show-rows';
import { PlaceNumbers } from '../stations/place-numbers';

export class NoShowResponse {
  @Id()
  bookingId!: string;

  @Id()
  stationId!: string;

  @Text({ max: 80 })
  stationName!: string;

  @OneOf(Duty)
  duty!: Duty;

  @Id()
  memberId!: string;

  @Text({ max: 80 })
  memberName!: string;

  @Id({ nullable: true })
  batchId!: string | null;

  @Instant()
  startsAt!: string;

  @Instant({ is: 'The places are booked until then, unless the booking is released.' })
  endsAt!: string;

  @PlaceNumbers()
  places!: number[];

  @Instant({ is: 'By then the honey should have come in, by the club’s noShowMinutes.' })
  expectedBy!: string;
}

export function toNoShowResponse(row: NoShowRow): NoShowResponse {
  return {
    bookingId: row.bookingId,
    stationId: row.stationId,
    stationName: row.stationName,
    duty: row.duty,
    memberId: row.memberId,
    memberName: row.memberName,
    batchId: row.batchId,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    places: row.places,
    expectedBy: row.expectedBy.toISOString(),
  };
}
