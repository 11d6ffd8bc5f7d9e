import { Decimal, MassKg, Part, Whole } from '../platform/fields';
import { Decimals } from '../platform/list-fields';

export class PottingRequest {
  @MassKg({ is: 'The whole batch.' })
  batchKg!: number;

  @MassKg({ optional: true, min: 0, is: 'As the next seed; 0 unless given.' })
  seedPutByKg?: number;

  @MassKg({ optional: true, min: 0, is: 'On walls and mixer; 0 unless given.' })
  lostKg?: number;

  @Whole({
    optional: true,
    min: 1,
    max: 100_000,
    is: 'What goes into a pot; what its label says unless given.',
  })
  filledG?: number;
}

export class NetQuantityRequest {
  @Decimal({ min: 1, max: 100_000, decimals: 1, is: 'What the label says.' })
  nominalG!: number;

  @Decimals({
    optional: true,
    min: 0,
    max: 100_000,
    decimals: 2,
    least: 1,
    most: 2000,
    is: 'Net masses of weighed pots, in grams: the whole batch.',
  })
  weighedG?: number[];

  @Part(() => PottingRequest, { optional: true, is: 'To know how many pots it fills.' })
  potting?: PottingRequest;
}
