import { OneOf, Text, YesNo } from '../platform/fields';
import { Grain } from '../platform/prisma-client/enums';

export class FloralSourceRequest {
  @Text({ max: 100, is: 'Unique in the club.', example: 'oilseed rape' })
  name!: string;

  @OneOf(Grain, { is: 'In which this honey sets by itself.' })
  grain!: Grain;

  @YesNo({ is: 'Whether it sets at all.' })
  sets!: boolean;

  @Text({ min: 0, max: 1000, optional: true })
  note: string = '';
}

export class FloralSourceChange {
  @Text({ max: 100, optional: true })
  name?: string;

  @OneOf(Grain, { optional: true })
  grain?: Grain;

  @YesNo({ optional: true })
  sets?: boolean;

  @Text({ min: 0, max: 1000, optional: true })
  note?: string;
}
