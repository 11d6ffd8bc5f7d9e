import { Id, Instant, OneOf, TemperatureC, Text, Whole, YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';
import { Duty } from '../platform/prisma-client/enums';

export class WaitingWishRequest {
  @Id()
  stationId!: string;

  @OneOf(Duty)
  duty!: Duty;

  @TemperatureC({ is: 'The lowest temperature that will do.' })
  minC!: number;

  @TemperatureC({ is: 'The highest.' })
  maxC!: number;

  @Whole({ min: 1, max: 200 })
  places!: number;

  @Whole({ min: 1, max: 172800, is: 'For how long.' })
  minutes!: number;

  @Instant({ is: 'Start no earlier. On a whole minute.' })
  notBefore!: Date;

  @Instant({ is: 'End no later; at most 400 days after notBefore. On a whole minute.' })
  notAfter!: Date;

  @Id({ optional: true, is: 'The batch that it is for.' })
  batchId?: string;

  @Text({ min: 0, max: 500, optional: true })
  note?: string;
}

export class WaitingQuery extends PageQuery {
  @Id({ optional: true })
  stationId?: string;

  @YesNo({ optional: true, fromText: true, is: 'Only your own.' })
  mine?: boolean;

  @YesNo({ optional: true, fromText: true, is: 'Those taken, lapsed and withdrawn, too.' })
  withEnded?: boolean;
}
