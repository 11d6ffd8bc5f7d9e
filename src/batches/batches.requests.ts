import { Id, Instant, MassKg, OneOf, TemperatureC, Text, Whole } from '../platform/fields';
import { Each } from '../platform/list-fields';
import { PageQuery } from '../platform/paging';
import { Firmness, Grain, SettingState, StepKind, Texture } from '../platform/prisma-client/enums';

export class LotMassRequest {
  @Id()
  lotId!: string;

  @MassKg()
  massKg!: number;
}

export class BatchRequest {
  @Text({ max: 120 })
  name!: string;

  @Each(() => LotMassRequest, { min: 1, max: 50, is: 'The honey meant for it.' })
  honey!: LotMassRequest[];

  @Each(() => LotMassRequest, {
    max: 50,
    optional: true,
    is: 'Seed to reserve for it: nobody else draws that much of those lots meanwhile. Held by whose batch it is.',
  })
  seed?: LotMassRequest[];

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;

  @Id({
    optional: true,
    is: 'Whose batch it is: the caller’s, unless a steward names somebody else.',
  })
  memberId?: string;
}

export class BatchChangeRequest {
  @Text({ max: 120, optional: true })
  name?: string;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;

  @Each(() => LotMassRequest, {
    min: 1,
    max: 50,
    optional: true,
    is: 'In place of the honey meant so far; until seed is stirred in.',
  })
  honey?: LotMassRequest[];

  @Each(() => LotMassRequest, {
    max: 50,
    optional: true,
    is: 'In place of the seed reserved so far, until seed is stirred in; none: it is let go.',
  })
  seed?: LotMassRequest[];
}

export class BatchesQuery extends PageQuery {
  @Id({ optional: true })
  memberId?: string;

  @OneOf(['planned', ...Object.values(StepKind)], {
    optional: true,
    is: 'The last step done; planned: none yet.',
  })
  stage?: StepKind | 'planned';

  @Id({ optional: true, is: 'Batches whose honey holds something of this floral source.' })
  floralSourceId?: string;

  @Text({ max: 120, optional: true, is: 'Batches whose name holds this, in whatever case.' })
  search?: string;
}

export class PotsRequest {
  @MassKg({ is: 'Of one pot.' })
  netMassKg!: number;

  @Whole({ min: 1, max: 100_000 })
  count!: number;
}

export class StepRequest {
  @OneOf(StepKind, { is: 'Not set: a setting check tells of that.' })
  kind!: StepKind;

  @Instant()
  at!: Date;

  @TemperatureC({ optional: true, is: 'Of the honey.' })
  temperatureC?: number;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;

  @Each(() => LotMassRequest, {
    min: 1,
    max: 50,
    optional: true,
    is: 'For seeded: the seed stirred in. Needed there, unless it is just the seed reserved for the batch.',
  })
  seed?: LotMassRequest[];

  @Each(() => LotMassRequest, {
    min: 1,
    max: 50,
    optional: true,
    is: 'For seeded: the honey that really went in, where it is not the honey that was meant for it.',
  })
  honey?: LotMassRequest[];

  @Each(() => PotsRequest, {
    min: 1,
    max: 50,
    optional: true,
    is: 'For potted, and needed there: the pots that were filled.',
  })
  pots?: PotsRequest[];

  @MassKg({ optional: true, is: 'For potted: put by as the seed of a next batch.' })
  seedPutByKg?: number;

  @Text({ max: 120, optional: true, is: 'For potted: the name of the lot of seed put by.' })
  seedName?: string;

  @OneOf(Grain, { optional: true, is: 'For potted: the grain of the seed put by.' })
  seedGrain?: Grain;

  @MassKg({ optional: true, is: 'For seeded and potted: what was lost in the doing.' })
  lossKg?: number;
}

export class StrikeOutRequest {
  @Text({ max: 500, is: 'Why the look was mistaken, such as: the wrong batch.' })
  because!: string;
}

export class CheckRequest {
  @Instant()
  at!: Date;

  @OneOf(SettingState)
  state!: SettingState;

  @OneOf(Texture, { optional: true })
  texture?: Texture;

  @OneOf(Firmness, { optional: true })
  firmness?: Firmness;

  @TemperatureC({ optional: true })
  temperatureC?: number;

  @Text({ min: 0, max: 2000, optional: true })
  note?: string;
}
