import { Id, Instant, Text } from '../platform/fields';

export class ProbeRequest {
  @Text({ max: 80, is: 'Unique in the club.', example: 'Cool room, top shelf' })
  name!: string;

  @Text({ min: 0, max: 1000, optional: true })
  note: string = '';

  @Id({ optional: true, is: 'The station that it is in; this or batchId.' })
  stationId?: string;

  @Id({ optional: true, is: 'The batch whose honey it is in; this or stationId.' })
  batchId?: string;

  @Instant({ optional: true, is: 'Since when; now, where it is left out.' })
  placedAt?: Date;
}

export class ProbeChange {
  @Text({ max: 80, optional: true })
  name?: string;

  @Text({ min: 0, max: 1000, optional: true })
  note?: string;

  @Id({ optional: true, nullable: true, is: 'Moves it into that station; null: takes it out.' })
  stationId?: string | null;

  @Id({ optional: true, nullable: true, is: 'Moves it into that batch; null: takes it out.' })
  batchId?: string | null;

  @Instant({ optional: true, is: 'When it was moved or taken out; now, where it is left out.' })
  movedAt?: Date;
}
