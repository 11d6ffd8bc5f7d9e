import { Id, Instant, OneOf, TemperatureC, Text } from '../platform/fields';
import { ApiProperty } from '@nestjs/swagger';
import { Duty } from '../platform/prisma-client/enums';

export const bookingStates = ['booked', 'released', 'cancelled'] as const;
export type BookingState = (typeof bookingStates)[number];

export class BookingResponse {
  @Id()
  id!: string;

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

  @Id({ nullable: true, is: 'The plan that it was booked with: other bookings may hang on it.' })
  planId!: string | null;

  @TemperatureC()
  minC!: number;

  @TemperatureC()
  maxC!: number;

  @Instant()
  startsAt!: string;

  @Instant({ is: 'Drawn in to the time of release when it was released early.' })
  endsAt!: string;

  @ApiProperty({
    type: 'integer',
    format: 'int32',
    minimum: 1,
    maximum: 200,
    isArray: true,
    maxItems: 200,
    description: 'The numbers of its places.',
  })
  places!: number[];

  @Text({ min: 0, max: 500 })
  note!: string;

  @OneOf(bookingStates)
  state!: BookingState;

  @Instant()
  createdAt!: string;
}

export interface BookingRow {
  id: string;
  stationId: string;
  stationName: string;
  duty: Duty;
  memberId: string;
  memberName: string;
  batchId: string | null;
  planId: string | null;
  minDeciC: number;
  maxDeciC: number;
  startsAt: Date;
  endsAt: Date;
  places: number[];
  note: string;
  createdAt: Date;
  releasedAt: Date | null;
  cancelledAt: Date | null;
}

export function toBookingResponse(row: BookingRow): BookingResponse {
  return {
    id: row.id,
    stationId: row.stationId,
    stationName: row.stationName,
    duty: row.duty,
    memberId: row.memberId,
    memberName: row.memberName,
    batchId: row.batchId,
    planId: row.planId,
    minC: row.minDeciC / 10,
    maxC: row.maxDeciC / 10,
    startsAt: row.startsAt.toISOString(),
    endsAt: row.endsAt.toISOString(),
    places: row.places,
    note: row.note,
    state: stateOf(row),
    createdAt: row.createdAt.toISOString(),
  };
}

function stateOf({ cancelledAt, releasedAt }: BookingRow): BookingState {
  if (cancelledAt !== null) return 'cancelled';
  return releasedAt === null ? 'booked' : 'released';
}
