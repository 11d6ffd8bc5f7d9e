import { Decimal, Id, OneOf, Text, YesNo } from '../platform/fields';
import { PageQuery } from '../platform/paging';
import { Grain } from '../platform/prisma-client/enums';

export class SeedShelfQuery extends PageQuery {
  @YesNo({ optional: true, fromText: true, is: 'true: only seed that the caller holds.' })
  mine?: boolean;

  @Id({ optional: true, is: 'Only seed with some of this floral source in it.' })
  floralSourceId?: string;

  @OneOf(Grain, { optional: true })
  grain?: Grain;
}

export class FittingSeedQuery {
  @Decimal({
    optional: true,
    fromText: true,
    min: 0.1,
    max: 100,
    decimals: 2,
    is: 'Seed for a hundred parts of honey; 10 unless given.',
  })
  seedPercent?: number;
}

const sharePattern =
  /^[0-9a-fA-F-]{36}:\d{1,3}(\.\d{1,2})?(,[0-9a-fA-F-]{36}:\d{1,3}(\.\d{1,2})?)*$/;

export class WishedSeedQuery extends FittingSeedQuery {
  @Decimal({
    fromText: true,
    min: 0.001,
    max: 5000,
    decimals: 3,
    is: 'Of the honey that is to be creamed.',
  })
  honeyMassKg!: number;

  @Text({
    optional: true,
    max: 1000,
    pattern: sharePattern,
    example: '0190f9d0-0000-7000-8000-000000000000:70,0190f9d0-0000-7000-8000-000000000001:30',
    is: 'Of what the honey is: floral sources, each with its percent; they add up to 100 at most.',
  })
  floralShares?: string;

  @OneOf(Grain, {
    optional: true,
    is: 'The coarsest that will do; left out: the grain in which most of the honey would set by itself.',
  })
  grain?: Grain;
}
