import { MassKg, OneOf, Text, Whole, YesNo } from '../platform/fields';
import { Each, Texts } from '../platform/list-fields';
import { Grain } from '../platform/prisma-client/enums';
import { ShelfSeedResponse } from './seed-shelf.responses';

export class FittingLotResponse extends ShelfSeedResponse {
  @Whole({ min: 1, max: 1000, is: 'The best is 1.' })
  rank!: number;

  @YesNo({ is: 'Nothing speaks against it.' })
  fits!: boolean;

  @YesNo({ is: 'It must be borrowed first: another member holds it.' })
  toBorrow!: boolean;

  @Texts({ max: 40, most: 3, is: 'What speaks against it: on-hold, too-little, too-coarse.' })
  obstacles!: string[];

  @Whole({ min: 0, max: 100, is: 'Of the same floral sources as the honey.' })
  percentInCommon!: number;

  @Texts({ max: 400, most: 12, is: 'Why it stands there, in words.' })
  why!: string[];
}

export class FittingSeedResponse {
  @MassKg({ min: 0, max: 1_000_000 })
  honeyMassKg!: number;

  @MassKg({ min: 0, max: 1_000_000, is: 'So much seed the honey takes.' })
  neededMassKg!: number;

  @OneOf(Grain, { nullable: true, is: 'The coarsest that will do; null: not known.' })
  coarsestGrain!: Grain | null;

  @Each(() => FittingLotResponse, {
    max: 500,
    is: 'Seed of which something is left, the best first: all of it, unless there are more lots than that.',
  })
  items!: FittingLotResponse[];

  @Whole({
    min: 0,
    max: 10_000_000,
    is: 'The club’s lots of seed of which something is left. Of more than 500 those of enough mass and of a grain that will do are compared first, of them one’s own and the newest.',
  })
  seedLots!: number;

  @Text({ max: 1000 })
  inWords!: string;

  @Text({ max: 1000, is: 'By what the order goes.' })
  method!: string;

  @Texts({ max: 400, most: 10 })
  cautions!: string[];
}
