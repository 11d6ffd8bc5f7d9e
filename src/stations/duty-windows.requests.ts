import { Instant, OneOf, Text } from '../platform/fields';
import { PageQuery } from '../platform/paging';
import { Duty } from '../platform/prisma-client/enums';

export class DutyWindowRequest {
  @OneOf(Duty, { is: 'One of the station’s: in that time it serves this one alone.' })
  duty!: Duty;

  @Instant()
  startsAt!: Date;

  @Instant()
  endsAt!: Date;

  @Text({ min: 0, max: 500, optional: true, example: 'Cool store over the summer' })
  note?: string;
}

export class DutyWindowChange {
  @OneOf(Duty, { optional: true })
  duty?: Duty;

  @Instant({ optional: true })
  startsAt?: Date;

  @Instant({ optional: true })
  endsAt?: Date;

  @Text({ min: 0, max: 500, optional: true })
  note?: string;
}

export class DutyWindowQuery extends PageQuery {
  @Instant({ optional: true, is: 'Only windows that end later.' })
  from?: Date;
}
