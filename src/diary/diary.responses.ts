import { bookingStates, type BookingState } from '../bookings/booking-state';
import { Id, Instant, OneOf, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Duty } from '../platform/prisma-client/enums';
import { PlaceNumbers } from '../stations/place-numbers';

/** How many bookings one answer tells. */
export const mostBookings = 5000;
export const mostStations = 200;
export const mostSpans = 1000;

export class DiaryBookingResponse {
  @Id()
  id!: string;

  @OneOf(Duty)
  duty!: Duty;

  @Id()
  memberId!: string;

  @Text({ max: 80 })
  memberName!: string;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @PlaceNumbers()
  places!: number[];

  @OneOf(bookingStates)
  state!: BookingState;
}

export class DiaryClosureResponse {
  @Id()
  id!: string;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @Text({ max: 200 })
  reason!: string;
}

export class DiaryWindowResponse {
  @Id()
  id!: string;

  @OneOf(Duty, { is: 'The one duty that the station serves then.' })
  duty!: Duty;

  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;

  @Text({ min: 0, max: 500 })
  note!: string;
}

export class DiaryStationResponse {
  @Id()
  id!: string;

  @Text({ max: 80 })
  name!: string;

  @Whole({
    min: 1,
    max: 200,
    is: 'Those in use; more where something stood in that time on a place that is out of use by now.',
  })
  places!: number;

  @Each(() => DiaryBookingResponse, { max: mostBookings, is: 'In order of their start.' })
  bookings!: DiaryBookingResponse[];

  @Each(() => DiaryClosureResponse, { max: mostSpans })
  closures!: DiaryClosureResponse[];

  @Each(() => DiaryWindowResponse, { max: mostSpans })
  dutyWindows!: DiaryWindowResponse[];
}

export class OpenSpanResponse {
  @Instant()
  startsAt!: string;

  @Instant()
  endsAt!: string;
}

export class DiaryResponse {
  @Instant()
  from!: string;

  @Instant({
    is: `Until when all bookings are told: the end that was asked for, or the first start that ${String(mostBookings)} bookings leave out. Ask on from there.`,
  })
  toldUntil!: string;

  @Each(() => OpenSpanResponse, {
    max: mostSpans,
    is: 'When people may come in, by opening hours and closed days.',
  })
  open!: OpenSpanResponse[];

  @Each(() => DiaryStationResponse, { max: mostStations, is: 'By their names.' })
  stations!: DiaryStationResponse[];
}
