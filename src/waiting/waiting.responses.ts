import { Id, Instant, OneOf, Part, TemperatureC, Text, Whole } from '../platform/fields';
import { Duty, WaitingState } from '../platform/prisma-client/enums';
import type { WishRow } from './waiting-rows';
import { PlaceNumbers } from '../stations/place-numbers';

export class KeptBooking {
  @Id({ is: 'It stands in the diary as a booking.' })
  bookingId!: string;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @PlaceNumbers()
  places!: number[];

  @Instant({
    nullable: true,
    is: 'Take it until then, or the next in line gets it; null: it was taken.',
  })
  keptUntil!: string | null;
}

export class WaitingWishResponse {
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

  @TemperatureC()
  minC!: number;

  @TemperatureC()
  maxC!: number;

  @Whole({ min: 1, max: 200 })
  places!: number;

  @Whole({ min: 1, max: 172800 })
  minutes!: number;

  @Instant()
  notBefore!: string;

  @Instant()
  notAfter!: string;

  @Id({ nullable: true })
  batchId!: string | null;

  @Text({ min: 0, max: 500 })
  note!: string;

  @OneOf(WaitingState)
  state!: WaitingState;

  @Part(() => KeptBooking, { nullable: true, is: 'What is kept for it, or was taken.' })
  offer!: KeptBooking | null;

  @Instant({ is: 'The line is in the order in which the wishes were made.' })
  createdAt!: string;

  @Instant({ nullable: true, is: 'When it was taken, lapsed or was withdrawn.' })
  endedAt!: string | null;
}

export function toWaitingWishResponse(row: WishRow): WaitingWishResponse {
  return {
    id: row.id,
    stationId: row.stationId,
    stationName: row.stationName,
    duty: row.duty,
    memberId: row.memberId,
    memberName: row.memberName,
    minC: row.minDeciC / 10,
    maxC: row.maxDeciC / 10,
    places: row.places,
    minutes: row.minutes,
    notBefore: row.notBefore.toISOString(),
    notAfter: row.notAfter.toISOString(),
    batchId: row.batchId,
    note: row.note,
    state: row.state,
    offer: offerOf(row),
    createdAt: row.createdAt.toISOString(),
    endedAt: row.endedAt?.toISOString() ?? null,
  };
}

function offerOf({ bookingId, startsAt, endsAt, keptUntil, numbers }: WishRow): KeptBooking | null {
  if (bookingId === null || startsAt === null || endsAt === null) return null;
  return {
    bookingId,
    startsAt: startsAt.toISOString(),
    endsAt: endsAt.toISOString(),
    places: numbers,
    keptUntil: keptUntil?.toISOString() ?? null,
  };
}
