import { Id, Instant, OneOf, Part, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { Duty, StepKind } from '../platform/prisma-client/enums';
import { PlaceNumbers } from '../stations/place-numbers';

export class OverstayBatch {
  @Id()
  id!: string;

  @Text({ max: 120 })
  name!: string;

  @OneOf([...Object.values(StepKind), 'planned'])
  stage!: string;

  @Instant({ nullable: true, is: 'When it was seen set.' })
  setAt!: string | null;

  @Instant({
    nullable: true,
    is: 'It has set by then, with a certainty of 80 in 100; null: it has set, or nothing can be said. An estimate: look at the honey.',
  })
  likelyUntil!: string | null;
}

export class NextBooking {
  @Id()
  bookingId!: string;

  @Id()
  memberId!: string;

  @Text({ max: 80 })
  memberName!: string;

  @Instant()
  startsAt!: string;

  @PlaceNumbers({ is: 'Of the places that are not clear.' })
  places!: number[];
}

export class FreeStationTime {
  @Instant({ is: 'The first moment at which it may start.' })
  firstStart!: string;

  @Instant({ is: 'The last one.' })
  lastStart!: string;

  @Whole({ min: 1, max: 200 })
  freePlaces!: number;
}

export class FreeStation {
  @Id()
  stationId!: string;

  @Text({ max: 80 })
  stationName!: string;

  @Each(() => FreeStationTime, { max: 3 })
  freeTimes!: FreeStationTime[];
}

export class OtherPlaces {
  @Whole({ min: 1, max: 172800, is: 'For how long places were looked for.' })
  minutes!: number;

  @Each(() => FreeStation, { max: 200, is: 'Stations that have so many places for so long.' })
  stations!: FreeStation[];
}

export class OverstayResponse {
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

  @PlaceNumbers({ is: 'The numbers of the places on which it stands.' })
  places!: number[];

  @Instant()
  arrivedAt!: string;

  @Instant({ is: 'The end of the booking: since then it stands there without one.' })
  since!: string;

  @Part(() => OverstayBatch, { nullable: true })
  batch!: OverstayBatch | null;

  @Each(() => NextBooking, { max: 20, is: 'Who has booked these places next.' })
  next!: NextBooking[];

  @Instant({
    nullable: true,
    is: 'The booking can be extended until then at most (PATCH endsAt); null: not at all. Never further than 60 days ahead.',
  })
  longestExtension!: string | null;

  @Part(() => OtherPlaces)
  otherPlaces!: OtherPlaces;
}
