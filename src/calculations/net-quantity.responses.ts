import { Decimal, Part, Whole, YesNo } from '../platform/fields';
import { Basis } from './basis.responses';
import { NetQuantityRequest } from './net-quantity.requests';

const grams = { min: 0, max: 100_000, decimals: 2 };
const pots = { min: 0, max: 10_000_000 };

export class WeighedPots {
  @Whole(pots)
  pots!: number;

  @Decimal(grams)
  meanG!: number;

  @YesNo({ is: 'The mean reaches the label.' })
  meanIsEnough!: boolean;

  @Whole({ ...pots, is: 'Short by more than the tolerable deficiency.' })
  inadequate!: number;

  @Whole({ ...pots, is: 'How many such pots there may be: 2.5 %, rounded down.' })
  inadequateAllowed!: number;

  @Whole({ ...pots, is: 'Short by more than twice that: none may be sold.' })
  forbidden!: number;

  @YesNo()
  passes!: boolean;
}

export class PottingResult {
  @Whole(pots)
  pots!: number;

  @Whole({ min: 0, max: 10_000_000, is: 'Too little for one more pot.' })
  leftG!: number;
}

export class NetQuantityResponse extends Basis {
  @Part(() => NetQuantityRequest, { is: 'As understood, with what was not given filled in.' })
  inputs!: NetQuantityRequest;

  @Decimal({ ...grams, is: 'By how much a single pot may fall short.' })
  tolerableDeficiencyG!: number;

  @Decimal({ ...grams, is: 'A pot below this is inadequate: at most 2.5 % of them.' })
  inadequateBelowG!: number;

  @Decimal({ ...grams, is: 'A pot below this may not be sold.' })
  forbiddenBelowG!: number;

  @Part(() => WeighedPots, { nullable: true })
  weighed!: WeighedPots | null;

  @Part(() => PottingResult, { nullable: true })
  potting!: PottingResult | null;
}
