import { Id, Instant, OneOf, TemperatureC, Text } from '../platform/fields';
import { Duty } from '../platform/prisma-client/enums';
import { PlaceNumbers } from '../stations/place-numbers';
import { bookingStates, stateOf, type BookingState } from './booking-state';

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

  @PlaceNumbers()
  places!: number[];

  @Text({ min: 0, max: 500 })
  note!: string;

  @OneOf(bookingStates, {
    is: 'kept: for somebody on the waiting list, who has not taken it yet.',
  })
  state!: BookingState;

  @Instant({ nullable: true, is: 'Taken by then, or it goes to the next in line.' })
  keptUntil!: string | null;

  @Instant({ nullable: true, is: 'When the honey came in, as far as anybody said.' })
  arrivedAt!: string | null;

  @Instant({ nullable: true, is: 'When the places were cleared, as far as anybody said.' })
  clearedAt!: string | null;

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
  keptForId: string | null;
  keptUntil: Date | null;
  arrivedAt: Date | null;
  clearedAt: Date | null;
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
    keptUntil: row.cancelledAt === null ? (row.keptUntil?.toISOString() ?? null) : null,
    arrivedAt: row.arrivedAt?.toISOString() ?? null,
    clearedAt: row.clearedAt?.toISOString() ?? null,
    createdAt: row.createdAt.toISOString(),
  };
}
